// The record that can still be taken back without a question: this person's last one, for ten seconds
// of the room's clock.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { takeBackMs } from '../board/constants.ts'
import type { Board } from '../board/state.ts'

export type UndoView = {
  readonly nest: NestId
  readonly label: string
  readonly no: number
  readonly untilMs: InstantMs
}

/** What this person may undo at `nowMs`; null once the ten seconds are over. */
export function undoView(board: Board, person: PersonId, nowMs: InstantMs): UndoView | null {
  const recent = Object.values(board.nests)
    .flatMap((nest) => nest.rounds.map((round) => ({ nest, round })))
    .filter(
      ({ nest, round }) =>
        round.person === person &&
        !round.isTakenBack &&
        nowMs - round.recordedAtMs < takeBackMs &&
        // While its claim is still in hand, answering again corrects it.
        !(nest.hands.type === 'held' && nest.hands.claimNo === round.no),
    )
    .sort((a, b) => b.round.recordedAtMs - a.round.recordedAtMs || b.round.no - a.round.no)[0]
  if (!recent) return null
  const { nest, round } = recent
  return {
    nest: nest.id,
    label: nest.label,
    no: round.no,
    untilMs: round.recordedAtMs + takeBackMs,
  }
}
