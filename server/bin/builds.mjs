// The finished builds: one folder each, named by the content it was made from, and `current` that
// points at one of them. A build is made aside and renamed when whole, and the pointer is switched
// by rename, so a start always finds a whole build or none. Called by launch.mjs and build.mjs.
//
//   .build/<hash>/server/main.mjs   the server, every package inlined
//   .build/<hash>/client/*.html     the screens, with their assets/
//   .build/current -> <hash>
//   .build/running/<pid>            the hash that a running server serves its screens from
import { createHash } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { basename, join, sep } from 'node:path'
import { exitCodeOf, runToEnd } from './child.mjs'
import { isAlive } from './launchLock.mjs'
import { Interrupted, PlainFailure, say } from './plainly.mjs'

/** What a build is made from; anything else may change without a new build. */
const sources = [
  'client',
  'server',
  'shared',
  'demo-data',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
]
/** Builds kept: the one in use and the one to go back to. */
const buildsMax = 2
/** A build is ended after this long; without it a stuck compiler holds every start. */
const buildMaxMs = 3 * 60_000

/**
 * The whole build that `current` points at, or undefined.
 * @param {string} root
 * @returns {string | undefined} an absolute folder, with no link left in it
 */
export function currentBuild(root) {
  const current = join(root, '.build', 'current')
  return existsSync(serverOf(current)) ? realpathSync(current) : undefined
}

/**
 * The current build if it was made from exactly the sources that stand here.
 * @param {string} root
 * @returns {string | undefined}
 */
export function upToDateBuild(root) {
  const build = currentBuild(root)
  return build !== undefined && basename(build) === sourceHash(root) ? build : undefined
}

/**
 * Makes the sources' build unless it exists, and points `current` at it. Lock held by the caller.
 * Throws a PlainFailure when the sources do not build; `current` is then as before.
 * @param {string} root
 * @returns {Promise<string>} the build's folder
 */
export async function ensureBuild(root) {
  const hash = sourceHash(root)
  const build = join(root, '.build', hash)
  if (!existsSync(build)) await make(root, build)
  const now = new Date()
  utimesSync(build, now, now)
  pointAt(root, hash)
  removeOldBuilds(root, hash)
  return build
}

/**
 * @param {string} build
 * @returns {string} the bundled server of a build
 */
export function serverOf(build) {
  return join(build, 'server', 'main.mjs')
}

/**
 * Notes that this process serves from `build`, so that no later start removes it underneath.
 * @param {string} root
 * @param {string} build
 */
export function noteRunning(root, build) {
  const running = join(root, '.build', 'running')
  mkdirSync(running, { recursive: true })
  writeFileSync(join(running, String(process.pid)), basename(build))
}

/**
 * @param {string} root
 * @param {string} build
 */
async function make(root, build) {
  say('Building …')
  const partial = `${build}.partial`
  rmSync(partial, { recursive: true, force: true })
  try {
    await compile(root, partial)
    renameSync(partial, build)
  } finally {
    rmSync(partial, { recursive: true, force: true })
  }
}

/**
 * @param {string} root
 * @param {string} out
 */
async function compile(root, out) {
  const ended = await runToEnd({
    command: process.execPath,
    args: [join(root, 'server', 'bin', 'compile.mjs'), root, out],
    cwd: root,
    stdout: 'stderr',
    limitMs: buildMaxMs,
  })
  if (ended.interruptedBy) throw new Interrupted(exitCodeOf(ended.interruptedBy))
  if (ended.exitCode !== 0) throw new PlainFailure('The build failed; its reason is above.')
}

/**
 * @param {string} root
 * @param {string} hash
 */
function pointAt(root, hash) {
  const aside = join(root, '.build', `current-${process.pid}`)
  rmSync(aside, { force: true })
  symlinkSync(hash, aside, 'junction')
  renameSync(aside, join(root, '.build', 'current'))
}

/**
 * @param {string} root
 * @param {string} hash the build that stays whatever its age
 */
function removeOldBuilds(root, hash) {
  const folder = join(root, '.build')
  const inUse = runningBuilds(join(folder, 'running'))
  const names = readdirSync(folder).filter((name) => name !== hash)
  const older = names
    .filter((name) => /^[0-9a-f]{16}$/.test(name) && !inUse.has(name))
    .map((name) => ({ name, usedAtMs: statSync(join(folder, name)).mtimeMs }))
    .sort((a, b) => b.usedAtMs - a.usedAtMs)
    .slice(buildsMax - 1)
    .map(({ name }) => name)
  // A half-made build is only left by a launcher that was killed; we hold the lock, so none is live.
  const halfMade = names.filter((name) => name.endsWith('.partial'))
  for (const name of [...older, ...halfMade]) rmSync(join(folder, name), { recursive: true })
}

/**
 * @param {string} running
 * @returns {Set<string>} hashes that live servers serve from
 */
function runningBuilds(running) {
  const hashes = new Set()
  if (!existsSync(running)) return hashes
  for (const pid of readdirSync(running)) {
    if (isAlive(Number(pid))) hashes.add(readFileSync(join(running, pid), 'utf8'))
    else rmSync(join(running, pid))
  }
  return hashes
}

/**
 * A short hash over the names and bytes of everything a build is made from.
 * @param {string} root
 * @returns {string}
 */
export function sourceHash(root) {
  const hash = createHash('sha256')
  for (const name of sources.flatMap((source) => filesUnder(root, source)).sort()) {
    const bytes = readFileSync(join(root, name))
    hash.update(`${name.split(sep).join('/')}\n${bytes.length}\n`).update(bytes)
  }
  return hash.digest('hex').slice(0, 16)
}

/**
 * @param {string} root
 * @param {string} name a file or folder under root, or one that does not exist
 * @returns {string[]} names of files, from root
 */
function filesUnder(root, name) {
  const found = statSync(join(root, name), { throwIfNoEntry: false })
  if (found === undefined) return []
  if (!found.isDirectory()) return [name]
  return readdirSync(join(root, name)).flatMap((child) => filesUnder(root, join(name, child)))
}
