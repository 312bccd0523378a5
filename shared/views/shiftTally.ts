// What one person did since their shift began, for the page that ends it.

import type { PersonId } from '../base/values.ts'
import type { Board, Person } from '../board/state.ts'

/** Null for a person who is not on shift. */
export function shiftTally(board: Board, person: PersonId): Person['tally'] | null {
  const actor = board.people[person]
  return actor && actor.shift !== 'off' ? actor.tally : null
}
