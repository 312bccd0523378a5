// The words of a tool's command line, read strictly: a wrong one is a sentence and exit code 2.

import { exitOnSignals } from './children.ts'

export class WrongWords extends Error {}

export function wholeNumber(
  option: string,
  text: string,
  { least, most }: { readonly least: number; readonly most: number },
): number {
  const n = /^\d{1,9}$/.test(text) ? Number(text) : -1
  if (n < least || n > most)
    throw new WrongWords(`${option} takes a whole number, ${least} to ${most}`)
  return n
}

/** Runs a tool to its end: its exit code, 2 for wrong words, and a sentence on stderr for those. */
export async function runTool(tool: () => Promise<number>): Promise<void> {
  exitOnSignals()
  try {
    process.exitCode = await tool()
  } catch (error) {
    if (!isAboutWords(error)) throw error
    console.error(error.message)
    process.exitCode = 2
  }
}

/** Node's own parser of options throws errors with codes of this kind. */
const isAboutWords = (error: unknown): error is Error =>
  error instanceof WrongWords ||
  (error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS'))
