// The room's clock as this device knows it: what was last heard, carried on by the device's own
// monotonic clock at the room's speed. The device's wall clock has no part in it.

import type { InstantMs, LengthMs } from '../../shared/base/values.ts'
import type { Timers } from './ports.ts'

type Heard = { readonly atMonoMs: number; readonly roomMs: InstantMs }

/**
 * One is kept for every beat: 34 minutes, longer than any claim lasts. Without a limit a wall would
 * remember every beat of a season.
 */
const heardMax = 1_024
/** Frames arrive more or less late, and time that jerks back by that much looks broken on a screen. */
const holdStillMs = 2_000

export class RoomTime {
  readonly #timers: Timers
  /** Earliest first. */
  #heard: Heard[] = []
  #speed = 1
  #shownMs: InstantMs | null = null

  constructor(timers: Timers) {
    this.#timers = timers
  }

  get speed(): number {
    return this.#speed
  }

  /** A welcome is a new beginning: the server may have been restored, or run at another speed. */
  welcomed(roomMs: InstantMs, speed: number): void {
    const last = this.#heard.at(-1)
    if (last !== undefined && roomMs < last.roomMs) this.#heard = []
    this.#speed = speed
    this.#shownMs = null
    this.#add(roomMs)
  }

  /** A frame overtaken by a later one tells nothing. */
  heard(roomMs: InstantMs): void {
    const last = this.#heard.at(-1)
    if (last === undefined || roomMs >= last.roomMs) this.#add(roomMs)
  }

  /** The room's time now, as far as is known; null before anything was heard. */
  nowMs(): InstantMs | null {
    const last = this.#heard.at(-1)
    if (last === undefined) return null
    const sinceMs = Math.max(0, this.#timers.nowMs() - last.atMonoMs)
    const roomMs = Math.round(last.roomMs + sinceMs * this.#speed)
    const backMs = this.#shownMs === null ? 0 : this.#shownMs - roomMs
    const isStill = backMs > 0 && backMs <= holdStillMs * this.#speed
    this.#shownMs = isStill ? this.#shownMs : roomMs
    return this.#shownMs
  }

  lastHeardMs(): InstantMs | null {
    return this.#heard.at(-1)?.roomMs ?? null
  }

  /** The room's time last heard at that moment of the device's monotonic clock; null if none was. */
  heardBefore(monoMs: number): InstantMs | null {
    return this.#heard.findLast(({ atMonoMs }) => atMonoMs <= monoMs)?.roomMs ?? null
  }

  /** How far the room's clock moves in so much real time. */
  roomLengthMs(realMs: LengthMs): LengthMs {
    return Math.round(realMs * this.#speed)
  }

  #add(roomMs: InstantMs): void {
    this.#heard.push({ atMonoMs: this.#timers.nowMs(), roomMs })
    if (this.#heard.length > heardMax) this.#heard.shift()
  }
}
