#!/usr/bin/env node
// `npm run torture|simulate|bench`: one TypeScript tool, with packages installed first. The tool's
// standard output and exit code are ours untouched, so `--json` prints its answer and nothing else.
// Use: `node run.mjs FILE.ts [arguments]`, FILE as seen from the project's top folder.
import { onSupportedNode } from './nodeVersion.mjs'

onSupportedNode(async () => {
  const { sayFailure } = await import('./plainly.mjs')
  await runTool(process.argv.slice(2)).catch(sayFailure)
})

/** @param {readonly string[]} words */
async function runTool([file = '', ...args]) {
  const { existsSync } = await import('node:fs')
  const { join } = await import('node:path')
  const { runToEnd } = await import('./child.mjs')
  const { preparePackages, projectRoot } = await import('./launch.mjs')
  const { PlainFailure } = await import('./plainly.mjs')
  const tool = join(projectRoot, file)
  if (!file.endsWith('.ts') || !existsSync(tool))
    throw new PlainFailure(`There is no tool ${file}.`)
  await preparePackages(projectRoot)
  const ended = await runToEnd({
    command: process.execPath,
    args: ['--import', import.meta.resolve('tsx'), tool, ...args],
    cwd: process.cwd(),
    stdout: 'inherit',
  })
  process.exitCode = ended.exitCode
}
