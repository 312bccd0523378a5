// The device's own clocks, in a browser and in Node alike.

import type { Timers } from './ports.ts'

export const realTimers: Timers = {
  nowMs: () => performance.now(),
  wallMs: () => Date.now(),
  after(delayMs, run) {
    const timer = setTimeout(run, delayMs)
    return () => clearTimeout(timer)
  },
}
