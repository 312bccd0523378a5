// How long ago a note was made, as it is told with every sending (`timingSchema` says what the fields
// mean). Within one page life the monotonic clock tells; after a reload only the device's wall clock
// is left, which may have been set meanwhile, so the server bounds what comes of it.

import { dayMs, type LengthMs } from '../../shared/base/values.ts'
import type { Timing } from '../../shared/board/commands.ts'
import type { Noted, Timers } from './ports.ts'

/** When this page life saw it, on the monotonic clock; null for what an earlier life noted. */
export type Origin = { readonly notedMonoMs: number; readonly startedMonoMs: number | null } | null

/** Longer than this no message may claim; an older note is said to be this old. */
const agoMaxMs = 31 * dayMs

export function timingOf(noted: Noted, origin: Origin, timers: Timers): Timing {
  const notedAgoMs = notedAgo(noted, origin, timers)
  const startedAgoMs = startedAgo(noted, origin, timers)
  return {
    notedAgoMs,
    ...(startedAgoMs === null ? {} : { startedAgoMs }),
    heardAtMs: noted.heardAtMs,
  }
}

export const notedAgo = (noted: Noted, origin: Origin, timers: Timers): LengthMs =>
  bounded(
    origin === null ? timers.wallMs() - noted.notedWallMs : timers.nowMs() - origin.notedMonoMs,
  )

function startedAgo(noted: Noted, origin: Origin, timers: Timers): LengthMs | null {
  if (origin !== null && origin.startedMonoMs !== null) {
    return bounded(timers.nowMs() - origin.startedMonoMs)
  }
  return noted.startedWallMs === null ? null : bounded(timers.wallMs() - noted.startedWallMs)
}

/** Whole milliseconds, never negative: a clock set back tells at worst that it was just now. */
const bounded = (agoMs: number): LengthMs => Math.min(agoMaxMs, Math.max(0, Math.round(agoMs)))
