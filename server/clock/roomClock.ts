// The room's clock: what leases, intervals and steps are measured by. It starts at the later of the
// wall clock and the last record, runs by the machine's monotonic clock times the demo's speed, and
// never goes back, whatever anybody does to the wall clock. What the wall clock says beside it is
// handed out as a number, and changes labels and civil hours only when an event says so.
//
//   wall    09:00 ………… 09:10 | set back | 08:10 …………
//   room    09:00 ………… 09:10 ………………………… 09:20         civilOffsetMs: 0, then −3,600,000

import { type InstantMs, type LengthMs, minuteMs } from '../../shared/base/values.ts'

/** A longer gap since the last record, at a start, is asked about: was it a night, or a wrong clock? */
export const gapToAskMs = 10 * minuteMs

export interface ClockSource {
  /** The machine's wall clock, such as `Date.now`; may jump either way. */
  readonly wallMs: () => InstantMs
  /** Counts up whatever the wall clock does, such as `performance.now`; from where, does not matter. */
  readonly monotonicMs: () => number
}

export interface RoomClockStart extends ClockSource {
  /** The time of the last record; null in a new room. */
  readonly lastRecordMs: InstantMs | null
  /** 1 in a real room; a demo may run faster. */
  readonly speed: number
}

export class RoomClock {
  /** The wall clock's lead over the last record, when longer than `gapToAskMs`; else null. */
  readonly gapAtStartMs: LengthMs | null
  readonly #source: ClockSource
  readonly #speed: number
  readonly #startedAtMs: InstantMs
  readonly #wallAtStartMs: InstantMs
  readonly #monotonicAtStartMs: number
  #lastMs: InstantMs

  constructor({ lastRecordMs, speed, ...source }: RoomClockStart) {
    this.#source = source
    this.#speed = speed
    this.#wallAtStartMs = source.wallMs()
    this.#monotonicAtStartMs = source.monotonicMs()
    this.#startedAtMs = Math.max(this.#wallAtStartMs, lastRecordMs ?? 0)
    this.#lastMs = this.#startedAtMs
    const gapMs = this.#wallAtStartMs - (lastRecordMs ?? this.#wallAtStartMs)
    this.gapAtStartMs = gapMs > gapToAskMs ? gapMs : null
  }

  /** Whole milliseconds, never less than it said before. */
  nowMs(): InstantMs {
    const nowMs = this.#startedAtMs + Math.floor(this.#sinceStartMs() * this.#speed)
    this.#lastMs = Math.max(this.#lastMs, nowMs)
    return this.#lastMs
  }

  /** How long, by a real clock, until this one says `atMs`; 0 when it does already. */
  realMsUntil(atMs: InstantMs): LengthMs {
    return Math.max(0, Math.ceil((atMs - this.nowMs()) / this.#speed))
  }

  /**
   * How far the wall clock is ahead of the room's, the demo's speed left out: what the room's civil
   * offset would be if it were set now. It moves when the wall clock jumps, and with nothing else.
   */
  civilOffsetMs(): LengthMs {
    return Math.round(this.#source.wallMs() - this.#startedAtMs - this.#sinceStartMs())
  }

  #sinceStartMs(): number {
    return this.#source.monotonicMs() - this.#monotonicAtStartMs
  }
}
