// Whether a person can be reached at all: coarse on purpose. The server says it when no screen of theirs
// was heard for a minute, and when one is heard again; nothing finer is kept.

import type { InstantMs, PersonId } from '../base/values.ts'
import { withPerson } from '../board/change.ts'
import type { EventOf } from '../board/events.ts'
import type { Board } from '../board/state.ts'
import type { Events } from './decision.ts'

/** The event that brings the board into step with what the server hears; none when it is. */
export function presenceEvents(
  board: Board,
  person: PersonId,
  isHeard: boolean,
  nowMs: InstantMs,
): Events {
  const known = board.people[person]
  const isOnBoard = known !== undefined && !known.isRemoved && known.shift !== 'off'
  if (!isOnBoard || isHeard === (known.unreachableSinceMs === null)) return []
  const type = isHeard ? ('PersonReachable' as const) : ('PersonUnreachable' as const)
  return [{ type, v: 1, person, atMs: nowMs }]
}

export function evolvePresence(
  board: Board,
  event: EventOf<'PersonUnreachable' | 'PersonReachable'>,
): Board {
  const unreachableSinceMs = event.type === 'PersonUnreachable' ? event.atMs : null
  return withPerson(board, event.person, (person) => ({ ...person, unreachableSinceMs }))
}
