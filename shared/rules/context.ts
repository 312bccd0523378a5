// What a rule may know beside the board: the time, who speaks, and how long ago by their own device.
// Made by the server for each turn; the rules take it as an argument and read no clock.

import type { InstantMs, LengthMs, PersonId } from '../base/values.ts'
import type { Timing } from '../board/commands.ts'
import type { PrivateRef } from '../board/parts.ts'

export type Context = {
  readonly by: PersonId
  /** The room's clock at this turn. */
  readonly nowMs: InstantMs
  /** Real milliseconds since the device noted it; an ask older than 15 s has expired. */
  readonly agoMs: LengthMs
  /** When it was noted, on the room's clock. */
  readonly notedAtMs: InstantMs
  /** When the visit it speaks of began, where the device saw that. */
  readonly startedAtMs: InstantMs | null
  /** A time lay outside what can be true and was moved to the nearest that can. */
  readonly isBounded: boolean
  /** Where the command's name or note was put; absent when it carried none. */
  readonly private?: PrivateRef
}

/**
 * The device's times on the room's clock: arrival minus how long ago, never before the device last
 * heard the room and never after arrival, so that a wrong device clock can do no more than that.
 * `speed` is how fast the room's clock runs against a real one.
 */
export function timesOf(
  timing: Timing,
  nowMs: InstantMs,
  speed: number,
): Pick<Context, 'agoMs' | 'notedAtMs' | 'startedAtMs' | 'isBounded'> {
  const heardAtMs = Math.min(timing.heardAtMs, nowMs)
  const place = (agoMs: LengthMs) => Math.round(nowMs - agoMs * speed)
  const noted = place(timing.notedAgoMs)
  const notedAtMs = Math.max(noted, heardAtMs)
  if (timing.startedAgoMs === undefined) {
    return { agoMs: timing.notedAgoMs, notedAtMs, startedAtMs: null, isBounded: noted < heardAtMs }
  }
  const started = place(timing.startedAgoMs)
  const startedAtMs = Math.max(Math.min(started, notedAtMs), heardAtMs)
  return {
    agoMs: timing.notedAgoMs,
    notedAtMs,
    startedAtMs,
    isBounded: startedAtMs !== started || noted < heardAtMs,
  }
}
