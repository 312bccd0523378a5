// A room's time that stands still until a test turns it on: what is "at 09:23" in a journey is at 09:23
// to the millisecond. Timers run out in real time too, so that heartbeats go on; whoever is woken early
// looks at this clock, finds that nothing is due, and waits again.

import type { HouseTime } from '../../server/openHouse.ts'
import type { InstantMs } from '../../shared/base/values.ts'

type Waiting = { readonly dueMs: InstantMs; readonly run: () => void }

export class CrankedTime implements HouseTime {
  #nowMs: InstantMs
  readonly #waiting = new Set<Waiting>()

  constructor(atMs: InstantMs) {
    this.#nowMs = atMs
  }

  readonly clockSource = { wallMs: () => this.#nowMs, monotonicMs: () => this.#nowMs }

  readonly timers = {
    after: (delayMs: number, run: () => void) => {
      const once = () => {
        clearTimeout(timer)
        if (this.#waiting.delete(waiting)) run()
      }
      const waiting: Waiting = { dueMs: this.#nowMs + delayMs, run: once }
      // A long wait is for the crank alone; a short one is a heartbeat's, or a retry's.
      const timer = setTimeout(once, Math.min(delayMs, 2 ** 31 - 1))
      timer.unref()
      this.#waiting.add(waiting)
      return () => {
        clearTimeout(timer)
        this.#waiting.delete(waiting)
      }
    },
  }

  /** The clock shows this from now on; whatever waited for it, or for less, is done. */
  goTo(atMs: InstantMs): void {
    if (atMs < this.#nowMs) throw new Error('time does not go back')
    this.#nowMs = atMs
    const due = [...this.#waiting].filter(({ dueMs }) => dueMs <= atMs)
    for (const { run } of due.sort((a, b) => a.dueMs - b.dueMs)) run()
  }
}
