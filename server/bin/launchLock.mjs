// One launcher at a time installs and builds: a lock folder `.build/lock` that holds one file named
// after its owner's process. Not the lock of a rooms folder; two servers may run from one build.
//
//   mkdir lock        -> free: it is ours, put our owner file in
//   lock/<pid>-<n>    -> taken: alive? wait. Gone? rename its file to ours; a rename has one winner
//   lock/ (empty)     -> its owner died between two steps: rmdir, which fails if that is not so
import { mkdirSync, readdirSync, renameSync, rmdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { PlainFailure, say } from './plainly.mjs'

/** Longest wait for another launcher; longer than an install and a build may take together. */
const waitMaxMs = 15 * 60_000
/** Between two looks at the lock. */
const lookEveryMs = 200

let locksTaken = 0

/**
 * Runs `work` while holding the lock of `buildFolder`, and gives the lock back whatever happens.
 * Throws a PlainFailure when another live launcher kept it for longer than the wait.
 * @template T
 * @param {string} buildFolder
 * @param {() => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function withLaunchLock(buildFolder, work) {
  mkdirSync(buildFolder, { recursive: true })
  const lock = join(buildFolder, 'lock')
  const owner = `${process.pid}-${++locksTaken}`
  await take(lock, owner)
  try {
    return await work()
  } finally {
    rmSync(join(lock, owner), { force: true })
    ignoring(['ENOENT', 'ENOTEMPTY', 'EEXIST'], () => rmdirSync(lock))
  }
}

/**
 * @param {string} lock
 * @param {string} owner
 */
async function take(lock, owner) {
  let hasSaidSo = false
  for (let waitedMs = 0; waitedMs <= waitMaxMs; waitedMs += lookEveryMs) {
    if (takeIfFree(lock, owner)) return
    if (!hasSaidSo) say('Another start is installing or building; waiting for it.')
    hasSaidSo = true
    await pause(lookEveryMs)
  }
  const holder = readdirSync(lock)[0]?.split('-')[0]
  throw new PlainFailure(
    `Process ${holder} has been installing or building for too long. If it is not a Broodboard start, remove ${lock} and try again.`,
  )
}

/**
 * @param {string} lock
 * @param {string} owner
 * @returns {boolean} whether the lock is ours now
 */
function takeIfFree(lock, owner) {
  if (ignoring(['EEXIST'], () => mkdirSync(lock))) {
    // ENOENT: somebody saw the still empty folder and removed it; the next look makes it again.
    return ignoring(['ENOENT'], () => writeFileSync(join(lock, owner), '', { flag: 'wx' }))
  }
  const holder = holderOf(lock)
  if (holder === undefined) {
    ignoring(['ENOENT', 'ENOTEMPTY', 'EEXIST'], () => rmdirSync(lock))
    return false
  }
  if (isAlive(Number(holder.split('-')[0]))) return false
  return ignoring(['ENOENT'], () => renameSync(join(lock, holder), join(lock, owner)))
}

/**
 * @param {string} lock
 * @returns {string | undefined} the owner's file name; undefined when the folder is empty or gone
 */
function holderOf(lock) {
  /** @type {string[]} */
  let names = []
  ignoring(['ENOENT'], () => {
    names = readdirSync(lock)
  })
  return names[0]
}

/**
 * Whether a process with this id runs. EPERM means it does, as somebody else.
 * @param {number} pid
 * @returns {boolean}
 */
export function isAlive(pid) {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return codeOf(error) === 'EPERM'
  }
}

/**
 * Does `step`; an error with one of `codes` is an expected answer and gives false.
 * @param {readonly string[]} codes
 * @param {() => void} step
 * @returns {boolean}
 */
function ignoring(codes, step) {
  try {
    step()
    return true
  } catch (error) {
    if (codes.includes(codeOf(error) ?? '')) return false
    throw error
  }
}

/**
 * @param {unknown} error
 * @returns {string | undefined}
 */
function codeOf(error) {
  return error instanceof Error && 'code' in error ? String(error.code) : undefined
}
