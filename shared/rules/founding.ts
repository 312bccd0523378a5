// What no person orders: a room is founded, the server begins to serve it, the civil clock is set.
// The server calls these and journals the events like any other.

import type { InstantMs, LengthMs } from '../base/values.ts'
import type { EventOf } from '../board/events.ts'
import type { Board } from '../board/state.ts'
import { dayAt } from './day.ts'
import type { Events } from './decision.ts'

export type Founding = Omit<EventOf<'RoomFounded'>, 'type' | 'v' | 'day'> & {
  readonly nowMs: InstantMs
}

/** The first events of a room. Throws on a time zone nobody knows. */
export function foundingEvents({ nowMs, ...room }: Founding): Events {
  return [{ type: 'RoomFounded', v: 1, ...room, day: dayAt(room, nowMs) }]
}

/** The server serves the room from now: leases and questions that ran out meanwhile get their minute. */
export const openingEvents = (_board: Board, nowMs: InstantMs): Events => [
  { type: 'RoomOpened', v: 1, atMs: nowMs },
]

/** Civil time moved against the room's clock; today's hours are written anew, nothing else changes. */
export function civilOffsetEvents(board: Board, offsetMs: LengthMs, nowMs: InstantMs): Events {
  const day = dayAt({ ...board.room, civilOffsetMs: offsetMs }, nowMs)
  return [{ type: 'CivilOffsetChanged', v: 1, offsetMs, day }]
}
