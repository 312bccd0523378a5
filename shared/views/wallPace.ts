// The wall's one line of pace, from the board alone and without a forecast. "Behind" is the mean
// lateness of the nests that are late, said from five minutes on: below that a round is as it always
// is. In the first and in the last round of a day that round is said instead.

import { type InstantMs, minuteMs } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { nestDueAtMs } from '../rules/due.ts'
import { today } from '../rules/feedingHours.ts'
import type { Hours } from './hours.ts'
import type { WallNest } from './wallNest.ts'

export type Pace =
  | { readonly type: 'keepingUp' }
  | { readonly type: 'behind'; readonly minutes: number }
  /** Nests that were due when the room opened and were not fed since, of all it feeds. */
  | { readonly type: 'openingRound'; readonly left: number; readonly of: number }
  /** Nests that come due once more before lights out. */
  | { readonly type: 'lastRound'; readonly left: number; readonly closesAtMs: InstantMs }
  | { readonly type: 'closed' }

const behindFromMinutes = 5
/** Before lights out; within this, songbirds come due once or twice more (common practice, no source). */
export const lastRoundMs = 60 * minuteMs
/** After opening; a plan whose first clock time is at noon does not keep the first round open. */
const openingRoundMs = 120 * minuteMs

function openingRound(board: Board, nests: readonly WallNest[], nowMs: InstantMs): Pace | null {
  const { opensAtMs } = today(board)
  if (nowMs >= opensAtMs + openingRoundMs) return null
  const dues = nests.flatMap(({ nest }) => nestDueAtMs(board, nest) ?? [])
  // What was due before the room opened is due from opening, until it is fed.
  const left = dues.filter((dueAtMs) => dueAtMs <= opensAtMs).length
  return left === 0 ? null : { type: 'openingRound', left, of: dues.length }
}

function behind(nests: readonly WallNest[]): Pace {
  const late = nests.flatMap(({ state }) => (state.type === 'late' ? [state.lateMs] : []))
  const sumMs = late.reduce((sum, one) => sum + one, 0)
  const minutes = late.length === 0 ? 0 : Math.floor(sumMs / late.length / minuteMs)
  return minutes < behindFromMinutes ? { type: 'keepingUp' } : { type: 'behind', minutes }
}

/** Fed once more before lights out: waiting for it, or in somebody's hands. */
const feedsAgain = ({ state, isAsleep }: WallNest): boolean =>
  !isAsleep && ['late', 'due', 'soon', 'later', 'claimed'].includes(state.type)

/** The room's pace at `nowMs`. */
export function paceOf(
  board: Board,
  nests: readonly WallNest[],
  at: { readonly hours: Hours; readonly nowMs: InstantMs },
): Pace {
  const { hours, nowMs } = at
  if (hours.type === 'closed') return { type: 'closed' }
  if (hours.type === 'alwaysOpen') return behind(nests)
  const { closesAtMs } = hours
  if (nowMs >= closesAtMs - lastRoundMs) {
    return { type: 'lastRound', left: nests.filter(feedsAgain).length, closesAtMs }
  }
  return openingRound(board, nests, nowMs) ?? behind(nests)
}
