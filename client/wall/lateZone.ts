// How wide the late zone is, remembered from one drawing to the next: it widens at once, because a
// late nest must have its place, and narrows only after five minutes of needing less, because a line
// that wanders teaches nothing. Pure; the page keeps the state.

import { type InstantMs, minuteMs } from '../../shared/base/values.ts'
import { lateStops } from './frame.ts'

export type LateZone = {
  readonly stop: number
  /** Since when less would do, and the most that was needed since; null while it is needed. */
  readonly less: { readonly sinceMs: InstantMs; readonly most: number } | null
}

const narrowsAfterMs = 5 * minuteMs

/** The smallest stop this room fits in; the widest where none is wide enough. */
export const stopFor = (needPx: number): number =>
  lateStops.find((stop) => stop >= needPx) ?? Math.max(...lateStops)

/** The zone at `nowMs`, after the one drawn before (null for the first). */
export function nextLateZone(zone: LateZone | null, needPx: number, nowMs: InstantMs): LateZone {
  const stop = stopFor(needPx)
  if (zone === null || stop >= zone.stop) return { stop, less: null }
  if (zone.less === null) return { stop: zone.stop, less: { sinceMs: nowMs, most: stop } }
  const most = Math.max(stop, zone.less.most)
  if (nowMs - zone.less.sinceMs >= narrowsAfterMs) return { stop: most, less: null }
  return { stop: zone.stop, less: { sinceMs: zone.less.sinceMs, most } }
}
