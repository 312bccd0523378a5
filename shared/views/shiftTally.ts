// What one person did since their shift, or their last break, began: as far as the board still knows.
// It keeps the latest visits of a nest only, so on a long day the count says that it is the least.

import type { InstantMs, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import { roundsPerNestMax } from '../board/constants.ts'
import type { Board, Nest } from '../board/state.ts'
import { isFeed } from '../rules/due.ts'

export type ShiftTally = {
  readonly sinceMs: InstantMs
  readonly visits: number
  readonly nests: number
  readonly birdsFed: number
  readonly refused: number
  /** Some visits, or what some birds did at them, may have left the board already. */
  readonly isLeast: boolean
}

/** Whether visits since then may have made room for later ones. */
const hasForgotten = ({ rounds }: Nest, sinceMs: InstantMs): boolean =>
  rounds.length >= roundsPerNestMax && (rounds[0]?.recordedAtMs ?? 0) >= sinceMs

/** Null for a person who is not on shift. */
export function shiftTally(board: Board, person: PersonId): ShiftTally | null {
  const actor = board.people[person]
  if (!actor || actor.shift === 'off') return null
  const sinceMs = actor.shiftSinceMs
  const nests = Object.values(board.nests)
  const mine = nests.flatMap((nest) =>
    nest.rounds
      .filter((round) => round.person === person && round.recordedAtMs >= sinceMs)
      .filter((round) => !round.isTakenBack)
      .map((round) => ({ nest, round })),
  )
  const outcomes = mine.flatMap(({ nest, round }) =>
    birdsOf(board, nest.id).flatMap(
      (bird) => bird.feeds.find((feed) => feed.no === round.no)?.outcome ?? [],
    ),
  )
  const told = mine.reduce((sum, { round }) => sum + round.birds.length, 0)
  return {
    sinceMs,
    visits: mine.length,
    nests: new Set(mine.map(({ nest }) => nest.id)).size,
    birdsFed: outcomes.filter(isFeed).length,
    refused: outcomes.filter((outcome) => outcome === 'refused').length,
    isLeast: outcomes.length < told || nests.some((nest) => hasForgotten(nest, sinceMs)),
  }
}
