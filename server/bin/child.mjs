// One child process, waited for: its exit code comes back, SIGTERM and SIGINT are passed on to it,
// and its standard output goes to ours or, for tools that chat, to stderr. Used for npm, for the
// build and for tools written in TypeScript.
import { spawn } from 'node:child_process'
import { constants } from 'node:os'

/** Signals that a person or a service sends to end us, and so also what we started. */
const passedOn = /** @type {const} */ (['SIGTERM', 'SIGINT'])

/**
 * @typedef {object} Child
 * @property {string} command
 * @property {readonly string[]} args
 * @property {string} cwd
 * @property {'inherit' | 'stderr'} stdout where its standard output goes
 * @property {number} [limitMs] ended with SIGTERM after this long; without it there is no limit
 */

/**
 * @typedef {object} Ended
 * @property {number} exitCode 128 + the signal's number when a signal ended it, as shells do
 * @property {NodeJS.Signals | undefined} interruptedBy the signal we were sent and passed on
 */

/**
 * Runs `child` to its end. Rejects only when it cannot be started at all.
 * @param {Child} child
 * @returns {Promise<Ended>}
 */
export function runToEnd(child) {
  return new Promise((resolve, reject) => {
    const started = spawn(child.command, child.args, {
      cwd: child.cwd,
      stdio: ['ignore', child.stdout === 'stderr' ? 2 : 'inherit', 2],
      timeout: child.limitMs,
    })
    /** @type {NodeJS.Signals | undefined} */
    let interruptedBy
    /** @param {NodeJS.Signals} signal */
    const passOn = (signal) => {
      interruptedBy = signal
      started.kill(signal)
    }
    const stopListening = () => {
      for (const signal of passedOn) process.off(signal, passOn)
    }
    for (const signal of passedOn) process.on(signal, passOn)
    started.on('error', (error) => {
      stopListening()
      reject(error)
    })
    started.on('exit', (code, signal) => {
      stopListening()
      resolve({ exitCode: code ?? exitCodeOf(signal), interruptedBy })
    })
  })
}

/**
 * @param {NodeJS.Signals | null | undefined} signal
 * @returns {number}
 */
export function exitCodeOf(signal) {
  return 128 + (signal ? constants.signals[signal] : 0)
}
