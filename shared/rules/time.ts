// What the passing of time does. Each rule says from which instant it holds; whether one is due now,
// and when the next will be, both come from that one list, so neither can forget what the other knows.

import type { InstantMs } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { dayAt } from './day.ts'
import type { Events } from './decision.ts'
import { doubtsTooOld } from './doubts.ts'
import { today } from './feedingHours.ts'
import { leaseOverAtMs } from './lease.ts'
import { lapsed } from './roster.ts'

type Due = { readonly atMs: InstantMs; readonly events: (nowMs: InstantMs) => Events }

/** The day opens by itself: a forgotten tap cannot stop it, and days nobody served are not made up. */
const dayOpens = (board: Board): readonly Due[] => [
  {
    atMs: today(board).nextOpensAtMs,
    events: (nowMs) => [{ type: 'DayOpened', v: 1, day: dayAt(board.room, nowMs) }],
  },
]

const leasesOver = (board: Board): readonly Due[] =>
  Object.values(board.nests).flatMap(({ hands }) =>
    hands.type === 'held'
      ? [
          {
            atMs: leaseOverAtMs(board, hands),
            events: (nowMs: InstantMs) => lapsed(board, hands.person, nowMs, hands.person),
          },
        ]
      : [],
  )

const timeRules = [dayOpens, leasesOver, doubtsTooOld] as const

/** The rule that holds earliest; among equals, the first in the order above. */
function earliest(board: Board): Due | null {
  let first: Due | null = null
  for (const rule of timeRules) {
    for (const due of rule(board)) {
      if (first === null || due.atMs < first.atMs) first = due
    }
  }
  return first
}

/**
 * The events of the earliest rule that holds at `nowMs`; none when none does. Called until it returns
 * none: every rule's events take away what made it hold.
 */
export function decideTime(board: Board, nowMs: InstantMs): Events {
  const due = earliest(board)
  return due && due.atMs <= nowMs ? due.events(nowMs) : []
}

/** When to look again; null only on a board that has not been founded. */
export function nextWakeAtMs(board: Board): InstantMs | null {
  return board.days.length === 0 ? null : (earliest(board)?.atMs ?? null)
}
