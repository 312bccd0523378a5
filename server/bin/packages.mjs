// The packages in node_modules: whether they are those of the lock file, and their replacement.
// A new set is installed beside the old one and swapped in by rename, so an install that fails, or
// is killed at any point, leaves the old set working. Called by launch.mjs with the lock held.
//
//   .build/install-<pid>/node_modules   the new set while npm works on it
//   .build/packages-before              the old set between the two renames
import { createHash } from 'node:crypto'
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { exitCodeOf, runToEnd } from './child.mjs'
import { Interrupted, PlainFailure, reasonOf, say } from './plainly.mjs'

/** npm is ended after this long; without it a registry that never answers holds every start. */
const installMaxMs = 10 * 60_000
/** Names the lock file that node_modules was installed from, by its hash. */
const markName = '.installed-from'

/**
 * Whether node_modules holds what package-lock.json asks for.
 * @param {string} root
 * @returns {boolean}
 */
export function packagesAreCurrent(root) {
  const mark = join(root, 'node_modules', markName)
  return existsSync(mark) && readFileSync(mark, 'utf8') === lockHash(root)
}

/**
 * Installs when packagesAreCurrent says no. Throws a PlainFailure and leaves the old set in place
 * when npm fails.
 * @param {string} root
 */
export async function ensurePackages(root) {
  const buildFolder = join(root, '.build')
  putBackInterruptedSwap(root)
  if (packagesAreCurrent(root)) return
  removeLeftovers(buildFolder)
  const staging = join(buildFolder, `install-${process.pid}`)
  mkdirSync(staging, { recursive: true })
  try {
    await install(root, staging)
    swapIn(root, join(staging, 'node_modules'))
  } finally {
    rmSync(staging, { recursive: true, force: true })
  }
}

/**
 * @param {string} root
 * @param {string} staging
 */
async function install(root, staging) {
  say('Installing packages …')
  for (const name of ['package.json', 'package-lock.json', '.npmrc']) {
    if (existsSync(join(root, name))) copyFileSync(join(root, name), join(staging, name))
  }
  // Read before npm runs: a lock file edited meanwhile must count as not installed.
  const hash = lockHash(staging)
  const ended = await runToEnd({ ...npm(), cwd: staging, stdout: 'stderr', limitMs: installMaxMs })
  if (ended.interruptedBy) throw new Interrupted(exitCodeOf(ended.interruptedBy))
  if (ended.exitCode !== 0) {
    throw new PlainFailure(
      `The packages could not be installed (npm ended with ${ended.exitCode}; its reason is above).`,
    )
  }
  mkdirSync(join(staging, 'node_modules'), { recursive: true })
  writeFileSync(join(staging, 'node_modules', markName), hash)
}

/**
 * The install command: the npm that started us where there is one, else the one on PATH. Every
 * setting that the surrounding `npm run --silent` or NODE_ENV=production could bend is said aloud.
 */
function npm() {
  const args = [
    'ci',
    '--include=dev',
    '--loglevel=error',
    '--fetch-retries=2',
    '--fetch-retry-mintimeout=1000',
    '--fetch-retry-maxtimeout=10000',
    '--fetch-timeout=60000',
  ]
  const running = process.env.npm_execpath
  if (running?.endsWith('npm-cli.js'))
    return { command: process.execPath, args: [running, ...args] }
  return { command: 'npm', args }
}

/**
 * @param {string} root
 * @param {string} fresh
 */
function swapIn(root, fresh) {
  const live = join(root, 'node_modules')
  const before = join(root, '.build', 'packages-before')
  rmSync(before, { recursive: true, force: true })
  if (existsSync(live)) renameSync(live, before)
  try {
    renameSync(fresh, live)
  } catch (error) {
    if (existsSync(before)) renameSync(before, live)
    throw new PlainFailure(`The new packages could not be put in place: ${reasonOf(error)}.`)
  }
  rmSync(before, { recursive: true, force: true })
}

/**
 * A start that died between the two renames of swapIn left the old set aside; it goes back.
 * @param {string} root
 */
function putBackInterruptedSwap(root) {
  const live = join(root, 'node_modules')
  const before = join(root, '.build', 'packages-before')
  if (!existsSync(live) && existsSync(before)) renameSync(before, live)
}

/** @param {string} buildFolder */
function removeLeftovers(buildFolder) {
  for (const name of readdirSync(buildFolder)) {
    if (name.startsWith('install-')) rmSync(join(buildFolder, name), { recursive: true })
  }
}

/**
 * @param {string} folder
 * @returns {string}
 */
function lockHash(folder) {
  const lockFile = join(folder, 'package-lock.json')
  if (!existsSync(lockFile))
    throw new PlainFailure('package-lock.json is missing from this folder.')
  return createHash('sha256').update(readFileSync(lockFile)).digest('hex')
}
