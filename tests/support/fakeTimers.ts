// A device's two clocks and its timers, moved by the test alone. `pass` lets time go by and fires what
// falls due, each at its own moment, with every promise in between brought to rest.

import type { Timers } from '../../client/session/ports.ts'

type Alarm = { readonly atMs: number; readonly run: () => void }

/** Microtasks enough for any chain of awaits in the code under test. */
const stepsMax = 100

/** Lets every promise that can go on go on; for stores and links that settle by microtasks alone. */
export async function settled(): Promise<void> {
  for (let step = 0; step < stepsMax; step += 1) await Promise.resolve()
}

export class FakeTimers implements Timers {
  #nowMs: number
  #wallMs: number
  #alarms: Alarm[] = []

  constructor(nowMs = 5_000, wallMs = Date.UTC(2026, 4, 16, 16)) {
    this.#nowMs = nowMs
    this.#wallMs = wallMs
  }

  nowMs(): number {
    return this.#nowMs
  }

  wallMs(): number {
    return this.#wallMs
  }

  after(delayMs: number, run: () => void): () => void {
    const alarm = { atMs: this.#nowMs + delayMs, run }
    this.#alarms.push(alarm)
    return () => {
      this.#alarms = this.#alarms.filter((other) => other !== alarm)
    }
  }

  get alarmCount(): number {
    return this.#alarms.length
  }

  /** Somebody, or the network, sets the device's wall clock. */
  setWall(wallMs: number): void {
    this.#wallMs = wallMs
  }

  /** What a monotonic clock must not do and a broken one does. */
  turnBack(byMs: number): void {
    this.#nowMs -= byMs
  }

  async pass(ms: number): Promise<void> {
    const untilMs = this.#nowMs + ms
    await settled()
    for (let next = this.#next(untilMs); next !== null; next = this.#next(untilMs)) {
      this.#goTo(next.atMs)
      const due = next
      this.#alarms = this.#alarms.filter((other) => other !== due)
      due.run()
      await settled()
    }
    this.#goTo(untilMs)
  }

  #next(untilMs: number): Alarm | null {
    const due = this.#alarms.filter(({ atMs }) => atMs <= untilMs)
    return due.reduce<Alarm | null>(
      (first, alarm) => (first === null || alarm.atMs < first.atMs ? alarm : first),
      null,
    )
  }

  #goTo(atMs: number): void {
    const byMs = Math.max(0, atMs - this.#nowMs)
    this.#nowMs += byMs
    this.#wallMs += byMs
  }
}
