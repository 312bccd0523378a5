// Holds whose time to look again has come. A hold never lifts by itself, so somebody is asked to look:
// whoever set it, and the lead.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Hold } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Board } from '../board/state.ts'
import { lookAgainStanding } from '../rules/holds.ts'

export type LookAgain = {
  readonly nest: NestId
  readonly label: string
  /** The one bird that is held; null where the whole nest is. */
  readonly bird: { readonly band: string | null; readonly place: number } | null
  readonly reason: string
  readonly lookAgainAtMs: InstantMs
  /** Nobody has looked for ten minutes since it was time. */
  readonly isOverdue: boolean
}

/** What this person is asked to look at again now, the longest due first. */
export function lookAgains(board: Board, person: PersonId, nowMs: InstantMs): readonly LookAgain[] {
  const actor = board.people[person]
  if (!actor) return []
  const asksLead = hasRight(actor, 'lead')
  const ask = (of: Pick<LookAgain, 'nest' | 'label' | 'bird'>, hold: Hold | null) => {
    const standing = hold ? lookAgainStanding(hold, nowMs) : 'quiet'
    if (!hold || standing === 'quiet' || !(asksLead || hold.by === person)) return []
    const { reason, lookAgainAtMs } = hold
    return [{ ...of, reason, lookAgainAtMs, isOverdue: standing === 'overdue' }]
  }
  return Object.values(board.nests)
    .flatMap(({ id: nest, label, hold }) => [
      ...ask({ nest, label, bird: null }, hold),
      ...birdsOf(board, nest).flatMap(({ band, hold: ofBird }, at) =>
        ask({ nest, label, bird: { band, place: at + 1 } }, ofBird),
      ),
    ])
    .sort((a, b) => a.lookAgainAtMs - b.lookAgainAtMs)
}
