// Every check of `npm test`, in order, and the count at the end. Called by tests/all.mjs before any
// package is installed: plain JavaScript, node's own modules and the launcher's.
import { readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { runToEnd } from '../../server/bin/child.mjs'
import { preparePackages, projectRoot } from '../../server/bin/launch.mjs'
import { reasonOf } from '../../server/bin/plainly.mjs'
import { ensureChromium } from './chromium.mjs'

/** One check is ended after this long; the whole run is meant to stay under 20 minutes. */
const checkMaxMs = 18 * 60_000

const vitestResult = join(projectRoot, '.build', 'vitest.json')

/** @typedef {{ passed: number, failed: number }} Count */
/** @typedef {{ name: string, run: () => Promise<Count> | Count }} Check */

/** @type {readonly Check[]} */
const checks = [
  { name: 'chromium', run: findBrowser },
  ...['shared', 'server', 'client', 'tests'].map((floor) =>
    tool(`types of ${floor}`, 'typescript/bin/tsc', ['-p', floor]),
  ),
  tool('lint and format', '@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.']),
  tool('dead code', 'knip/bin/knip.js', ['--no-progress']),
  { name: 'build', run: () => passes([join('server', 'bin', 'build.mjs')]) },
  { name: 'vitest', run: runVitest },
]

/**
 * Runs all of it, with a heading and a duration each.
 * @returns {Promise<number>} the exit code: 0 only if everything passed
 */
export async function runEveryCheck() {
  const packages = await timed({ name: 'packages', run: installPackages })
  const done = [packages]
  // Without packages nothing else can even start, and would only repeat that.
  if (packages.failed === 0) for (const check of checks) done.push(await timed(check))
  const passed = done.reduce((sum, check) => sum + check.passed, 0)
  const failed = done.reduce((sum, check) => sum + check.failed, 0)
  console.log('')
  for (const check of done) console.log(lineOf(check))
  console.log(`\n${passed} passed, ${failed} failed`)
  return failed === 0 ? 0 : 1
}

/**
 * @param {Check} check
 * @returns {Promise<Count & { name: string, tookMs: number }>}
 */
async function timed({ name, run }) {
  console.log(`\n── ${name}`)
  const startedMs = performance.now()
  const count = await run()
  return { ...count, name, tookMs: performance.now() - startedMs }
}

/** @param {Count & { name: string, tookMs: number }} check */
function lineOf({ name, passed, failed, tookMs }) {
  const seconds = `${(tookMs / 1000).toFixed(1)} s`.padStart(9)
  const result = failed === 0 ? 'passed' : 'FAILED'
  return `${seconds}  ${result}  ${name}${passed + failed > 1 ? ` (${passed + failed} tests)` : ''}`
}

/** @returns {Promise<Count>} */
async function installPackages() {
  try {
    await preparePackages(projectRoot)
    return { passed: 1, failed: 0 }
  } catch (error) {
    console.error(reasonOf(error))
    return { passed: 0, failed: 1 }
  }
}

/** @returns {Count} */
function findBrowser() {
  try {
    console.log(ensureChromium())
    return { passed: 1, failed: 0 }
  } catch (error) {
    console.error(reasonOf(error))
    return { passed: 0, failed: 1 }
  }
}

/**
 * @param {string} name
 * @param {string} program inside node_modules
 * @param {readonly string[]} args
 * @returns {Check}
 */
function tool(name, program, args) {
  return { name, run: () => passes([join('node_modules', program), ...args]) }
}

/**
 * @param {readonly string[]} args what this Node runs; it passes by ending with 0
 * @returns {Promise<Count>}
 */
async function passes(args) {
  return (await exitCodeOf(args)) === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }
}

/**
 * Ends this whole run when a person or a service ends the check.
 * @param {readonly string[]} args
 * @returns {Promise<number>}
 */
async function exitCodeOf(args) {
  const ended = await runToEnd({
    command: process.execPath,
    args,
    cwd: projectRoot,
    stdout: 'inherit',
    limitMs: checkMaxMs,
  })
  if (ended.interruptedBy) process.exit(1)
  return ended.exitCode
}

/** @returns {Promise<Count>} */
async function runVitest() {
  rmSync(vitestResult, { force: true })
  const exitCode = await exitCodeOf([
    join('node_modules', 'vitest', 'vitest.mjs'),
    'run',
    '--config=tests/vitest.config.ts',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${vitestResult}`,
  ])
  try {
    return countOf(JSON.parse(readFileSync(vitestResult, 'utf8')), exitCode)
  } catch (error) {
    console.error(`vitest left no result to count: ${reasonOf(error)}`)
    return { passed: 0, failed: 1 }
  }
}

/**
 * What vitest's result amounts to. A skipped test counts as failed, so does a file that did not load,
 * and an error outside every test (vitest then ends with 1 and no failed test).
 * @param {VitestResult} result
 * @param {number} exitCode
 * @returns {Count}
 */
export function countOf(result, exitCode) {
  const notRun = result.numPendingTests + result.numTodoTests
  if (notRun > 0) console.error(`${notRun} tests were skipped; every test runs or goes.`)
  const notLoaded = result.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some(hasFailed),
  ).length
  const failed = result.numFailedTests + notRun + notLoaded
  const isUnexplained = failed === 0 && (exitCode !== 0 || result.numPassedTests === 0)
  return { passed: result.numPassedTests, failed: isUnexplained ? 1 : failed }
}

/**
 * The part of vitest's JSON report that is counted.
 * @typedef {object} VitestResult
 * @property {number} numPassedTests
 * @property {number} numFailedTests
 * @property {number} numPendingTests
 * @property {number} numTodoTests
 * @property {{ status: string, assertionResults: { status: string }[] }[]} testResults
 */

/** @param {{ status: string }} test */
function hasFailed(test) {
  return test.status === 'failed'
}
