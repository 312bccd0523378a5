// How the launcher speaks: sentences on stderr, and failures that are sentences. Answers on stdout
// belong to the program that is started, never to the launcher.

/** A failure whose message is a sentence for the person at the terminal; no stack is shown. */
export class PlainFailure extends Error {}

/** The person asked to stop (SIGTERM or Ctrl-C) while packages or a build were being made. */
export class Interrupted extends Error {
  /** @param {number} exitCode */
  constructor(exitCode) {
    super('Stopped before it was ready.')
    this.exitCode = exitCode
  }
}

/** @param {string} sentence */
export function say(sentence) {
  process.stderr.write(`broodboard: ${sentence}\n`)
}

/**
 * Ends a launcher script that failed: the sentence, or the stack of a mistake of ours.
 * @param {unknown} error
 */
export function sayFailure(error) {
  if (error instanceof Interrupted) {
    process.exitCode = error.exitCode
    return
  }
  process.exitCode = 1
  if (error instanceof PlainFailure) say(error.message)
  else say(error instanceof Error ? (error.stack ?? error.message) : String(error))
}

/**
 * What went wrong, as words to put into a sentence.
 * @param {unknown} error
 * @returns {string}
 */
export function reasonOf(error) {
  return error instanceof Error ? error.message : String(error)
}
