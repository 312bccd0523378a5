// Waiting on other processes, where there is no port to fake: look, and look again, up to a limit.

import { setTimeout } from 'node:timers/promises'

const lookAgainMs = 5

/** Whether it came true within the time. */
export async function until(isSo: () => boolean, maxMs: number): Promise<boolean> {
  const startedMs = performance.now()
  while (!isSo()) {
    if (performance.now() - startedMs > maxMs) return false
    await setTimeout(lookAgainMs)
  }
  return true
}
