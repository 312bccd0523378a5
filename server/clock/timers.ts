// The machine's timers, and its clocks, as the ports that want them: the only place where the server
// looks at real time.

import { dayMs, type LengthMs } from '../../shared/base/values.ts'
import type { ClockSource } from './roomClock.ts'

export const machineClock: ClockSource = {
  wallMs: () => Date.now(),
  monotonicMs: () => performance.now(),
}

/**
 * Node takes a wait of more than 2^31 ms (25 days) for none at all and would call back at once, again
 * and again; so no wait is longer than a day, and who waits longer looks at the clock and waits anew.
 */
export const waitMaxMs = dayMs

export const realTimers = {
  /** Calls `run` once, after so long or a day, unless the function it returns was called. */
  after(delayMs: LengthMs, run: () => void): () => void {
    const timer = setTimeout(run, Math.min(delayMs, waitMaxMs))
    return () => clearTimeout(timer)
  },
}
