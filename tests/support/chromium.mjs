// Where the machine's Chromium is, and its installation where that is ours to do. Plain JavaScript
// without packages, because `npm test` asks before any package is installed; tests ask through
// browser.ts.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

/** Tried in this order on PATH. */
const names = ['chromium', 'chromium-browser', 'google-chrome']
/** Telling its version takes a browser well under a second; a broken stub may hang. */
const versionMaxMs = 20_000
/** Both package lists and the browser itself, over a slow line. */
const installMaxMs = 10 * 60_000

/**
 * The program file of Chromium: BROWSER_PATH when it is set, else the first on PATH that starts.
 * Throws an Error that says what to install.
 * @returns {string}
 */
export function findChromium() {
  const named = process.env.BROWSER_PATH
  if (named) {
    if (versionOf(named) !== undefined) return named
    throw new Error(`BROWSER_PATH is ${named}, and no browser starts from there.`)
  }
  const found = onPath()
  if (found !== undefined) return found
  throw new Error(
    'No Chromium was found. Install Chromium or Google Chrome so that it is on PATH (on Debian: apt-get install chromium), or set BROWSER_PATH to it.',
  )
}

/**
 * findChromium, after installing it where we are root on a Debian that has none.
 * @returns {string} the program file and its version, for the person watching
 */
export function ensureChromium() {
  if (!process.env.BROWSER_PATH && onPath() === undefined && mayInstall()) install()
  const program = findChromium()
  return `${program}, ${versionOf(program)}`
}

function onPath() {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '')
  return names
    .flatMap((name) => folders.map((folder) => join(folder, name)))
    .find((program) => existsSync(program) && versionOf(program) !== undefined)
}

/**
 * @param {string} program
 * @returns {string | undefined} undefined when it does not start
 */
function versionOf(program) {
  const answer = spawnSync(program, ['--version'], { encoding: 'utf8', timeout: versionMaxMs })
  return answer.status === 0 ? answer.stdout.trim() : undefined
}

function mayInstall() {
  return process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')
}

function install() {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  const wait = '-oDPkg::Lock::Timeout=300'
  for (const args of [
    ['update', wait],
    ['install', '-y', '--no-install-recommends', wait, 'chromium', 'fonts-dejavu-core'],
  ]) {
    spawnSync('apt-get', args, { env, stdio: ['ignore', 2, 2], timeout: installMaxMs })
  }
}
