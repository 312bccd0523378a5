// Servers that a tool starts must not outlive it, whatever ends it short of a kill.

import type { ChildProcess } from 'node:child_process'
import { constants } from 'node:os'

const running = new Set<ChildProcess>()

/** Kills it when this process exits first. */
export function endsWithUs(child: ChildProcess): void {
  if (running.size === 0) process.once('exit', killAll)
  running.add(child)
  child.once('exit', () => {
    running.delete(child)
    if (running.size === 0) process.off('exit', killAll)
  })
}

function killAll(): void {
  for (const child of running) child.kill('SIGKILL')
}

/** Lets a signal end this process by way of its exit, with the code a shell would give it. */
export function exitOnSignals(): void {
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => process.exit(128 + constants.signals[signal]))
  }
}
