// The room's clock and its timers, moved by the test alone. Real time and room time go together, the
// room's `speed` times as fast; a wall clock beside them can be set wrong.

import type { ClockPort, TimersPort } from '../../../server/scribe/ports.ts'
import type { InstantMs, LengthMs } from '../../../shared/base/values.ts'
import { settled } from '../../support/fakeTimers.ts'

type Alarm = { readonly atMs: number; readonly run: () => void }

export class FakeTime implements ClockPort, TimersPort {
  readonly speed: number
  #realMs = 0
  #roomMs: InstantMs
  #alarms: readonly Alarm[] = []
  /** What the machine's wall clock says beyond the room's clock. */
  wallOffsetMs: LengthMs = 0

  constructor(startMs: InstantMs, speed = 1) {
    this.#roomMs = startMs
    this.speed = speed
  }

  nowMs(): InstantMs {
    return this.#roomMs
  }

  civilOffsetMs(): LengthMs {
    return this.wallOffsetMs
  }

  after(delayMs: LengthMs, run: () => void): () => void {
    const alarm = { atMs: this.#realMs + delayMs, run }
    this.#alarms = [...this.#alarms, alarm]
    return () => {
      this.#alarms = this.#alarms.filter((other) => other !== alarm)
    }
  }

  get alarmCount(): number {
    return this.#alarms.length
  }

  /** Only the clock: what a machine does that slept through its timers, or a clock set back. */
  setRoomClock(nowMs: InstantMs): void {
    this.#roomMs = nowMs
  }

  /** Time goes by and timers fire, each at its own moment. */
  async pass(realMs: LengthMs): Promise<void> {
    const untilMs = this.#realMs + realMs
    await settled()
    for (;;) {
      const next = this.#alarms.reduce<Alarm | null>(
        (first, alarm) => (first === null || alarm.atMs < first.atMs ? alarm : first),
        null,
      )
      if (next === null || next.atMs > untilMs) break
      this.#goTo(next.atMs)
      this.#alarms = this.#alarms.filter((other) => other !== next)
      next.run()
      await settled()
    }
    this.#goTo(untilMs)
  }

  #goTo(realMs: number): void {
    this.#roomMs += Math.round((realMs - this.#realMs) * this.speed)
    this.#realMs = realMs
  }
}
