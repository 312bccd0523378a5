// The doubts a person is asked about: "Did you feed F at about 9:10?" They go to whoever had the claim;
// where nobody is known any more, to the lead. What seems recorded twice is asked of nobody: its two
// feeders have said what they did, and only a look at the crops can tell.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import { hasRight } from '../board/rights.ts'
import type { Board } from '../board/state.ts'

export type DoubtQuestion = {
  readonly nest: NestId
  readonly label: string
  /** The visit it is about; the answer names it. */
  readonly no: number
  readonly aboutAtMs: InstantMs
  readonly birds: readonly BirdId[]
}

/** The open questions for this person, the oldest first. */
export function doubtQuestions(board: Board, person: PersonId): readonly DoubtQuestion[] {
  const actor = board.people[person]
  if (!actor) return []
  const asksLead = hasRight(actor, 'lead')
  return Object.values(board.nests)
    .flatMap((nest) =>
      nest.doubts
        .filter(({ kind }) => kind !== 'twice')
        .filter(({ owner }) => owner === person || (owner === null && asksLead))
        .map(({ no, aboutAtMs, birds }) => ({
          nest: nest.id,
          label: nest.label,
          no,
          aboutAtMs,
          birds,
        })),
    )
    .sort((a, b) => a.aboutAtMs - b.aboutAtMs || a.no - b.no)
}
