// The one timer of a room. It wakes the scribe when the next time rule is due, and at least every few
// seconds, so that a lapse is seen in time whatever the machine did to its timers meanwhile.

import { clamp, type InstantMs, type LengthMs, secondMs } from '../../shared/base/values.ts'
import type { ClockPort, TimersPort } from './ports.ts'

/** A lapse is seen at most this much later, in real time; longer and a lost timer would go unnoticed. */
export const wakeMostMs: LengthMs = 5 * secondMs
/** Never at once again: a rule that leaves itself due would otherwise keep the processor busy. */
const wakeLeastMs: LengthMs = 20

export type WakePorts = {
  readonly clock: Pick<ClockPort, 'nowMs'>
  readonly timers: TimersPort
  readonly speed: number
}

export class Wake {
  readonly #ports: WakePorts
  readonly #onWake: () => void
  #cancel: (() => void) | null = null

  constructor(ports: WakePorts, onWake: () => void) {
    this.#ports = ports
    this.#onWake = onWake
  }

  /** Sets the timer anew for this instant of the room's clock, or for the longest wait. */
  sleepUntil(atMs: InstantMs | null): void {
    this.stop()
    const leftMs =
      atMs === null ? wakeMostMs : (atMs - this.#ports.clock.nowMs()) / this.#ports.speed
    const delayMs = Math.ceil(clamp(leftMs, wakeLeastMs, wakeMostMs))
    this.#cancel = this.#ports.timers.after(delayMs, () => {
      this.#cancel = null
      this.#onWake()
    })
  }

  stop(): void {
    this.#cancel?.()
    this.#cancel = null
  }
}
