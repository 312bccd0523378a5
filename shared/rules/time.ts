// What the passing of time does. Each rule says from which instant it holds; whether one is due now,
// and when the next will be, both come from that one list, so neither can forget what the other knows.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { dayAt } from './day.ts'
import type { Due, Events } from './decision.ts'
import { doubtsTooOld } from './doubts.ts'
import { today } from './feedingHours.ts'
import { leaseOverAtMs } from './lease.ts'
import { leadsToldOfLate, offersDue, offersOver } from './offers.ts'
import { requestsDue } from './requests.ts'
import { lapsed } from './roster.ts'

/** The day opens by itself: a forgotten tap cannot stop it, and days nobody served are not made up. */
const dayOpens = (board: Board): readonly Due[] => [
  {
    atMs: today(board).nextOpensAtMs,
    events: (nowMs) => [{ type: 'DayOpened', v: 1, day: dayAt(board.room, nowMs) }],
  },
]

/** The day closes at its hour, so that nobody is asked for a late nest in a sleeping room. */
function dayCloses(board: Board): readonly Due[] {
  const { closesAtMs, nextOpensAtMs } = today(board)
  if (board.room.isClosed || closesAtMs >= nextOpensAtMs) return []
  return [{ atMs: closesAtMs, events: (nowMs) => [{ type: 'DayClosed', v: 1, atMs: nowMs }] }]
}

const leasesOver = (board: Board): readonly Due[] =>
  Object.values(board.nests).flatMap(({ hands }) =>
    hands.type === 'held'
      ? [
          {
            atMs: leaseOverAtMs(board, hands),
            events: (nowMs: InstantMs) =>
              lapsed(board, hands.person, nowMs, askedOfClaim(board, hands.person)),
          },
        ]
      : [],
  )

/** Who is asked what happened: whoever had the claim, unless no screen of theirs is heard any more. */
const askedOfClaim = (board: Board, person: PersonId): PersonId | null =>
  board.people[person]?.unreachableSinceMs === null ? person : null

/** The hours of the day come first: what else is due depends on whether the room feeds. */
const hourRules = [dayOpens, dayCloses] as const
const timeRules = [
  leasesOver,
  doubtsTooOld,
  offersOver,
  requestsDue,
  offersDue,
  leadsToldOfLate,
] as const

/** The rule that holds earliest; among equals, the first in the order above. */
function firstOf(board: Board, rules: readonly ((board: Board) => readonly Due[])[]): Due | null {
  let found: Due | null = null
  for (const rule of rules) {
    for (const due of rule(board)) {
      if (found === null || due.atMs < found.atMs) found = due
    }
  }
  return found
}

type Earliest = { readonly hours: Due | null; readonly rest: Due | null }
/** A board never changes, so what is earliest on it is worked out once. */
const known = new WeakMap<Board, Earliest>()

function earliest(board: Board): Earliest {
  const before = known.get(board)
  if (before) return before
  const found = { hours: firstOf(board, hourRules), rest: firstOf(board, timeRules) }
  known.set(board, found)
  return found
}

/**
 * The events of the earliest rule that holds at `nowMs`; none when none does. Called until it returns
 * none: every rule's events take away what made it hold.
 */
export function decideTime(board: Board, nowMs: InstantMs): Events {
  const { hours, rest } = earliest(board)
  if (hours && hours.atMs <= nowMs) return hours.events(nowMs)
  return rest && rest.atMs <= nowMs ? rest.events(nowMs) : []
}

/** When to look again; null only on a board that has not been founded. */
export function nextWakeAtMs(board: Board): InstantMs | null {
  if (board.days.length === 0) return null
  const { hours, rest } = earliest(board)
  if (hours === null || rest === null) return (hours ?? rest)?.atMs ?? null
  return Math.min(hours.atMs, rest.atMs)
}
