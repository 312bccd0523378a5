// Holds and arrivals whose time to look has come. Neither ends by itself, so somebody is asked: whoever
// set the hold, and the lead; for an arrival the lead, and whoever may release it.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import { lookAgainOverdueMs } from '../board/constants.ts'
import type { Hold } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Board } from '../board/state.ts'
import { lookAgainStanding } from '../rules/holds.ts'

export type LookAgain = {
  readonly kind: 'hold' | 'arrival'
  readonly nest: NestId
  readonly label: string
  /** The one bird that is held; null where the whole nest is. */
  readonly bird: { readonly band: string | null; readonly place: number } | null
  /** Why it is held; nothing is said of an arrival but that it settles. */
  readonly reason: string | null
  readonly lookAgainAtMs: InstantMs
  /** Nobody has looked for ten minutes since it was time. */
  readonly isOverdue: boolean
}

/** Arrivals that warm and whose look is due, a nest once. */
function arrivals(board: Board, nowMs: InstantMs): readonly LookAgain[] {
  return Object.values(board.nests).flatMap(({ id: nest, label }) => {
    const dues = birdsOf(board, nest).flatMap(({ standing }) =>
      standing.type === 'settling' ? [standing.lookDueAtMs] : [],
    )
    const lookAgainAtMs = Math.min(...dues)
    if (dues.length === 0 || nowMs < lookAgainAtMs) return []
    const isOverdue = nowMs >= lookAgainAtMs + lookAgainOverdueMs
    return [{ kind: 'arrival', nest, label, bird: null, reason: null, lookAgainAtMs, isOverdue }]
  })
}

/** Holds this person set, or any where they lead, whose look-again has come. */
function holds(board: Board, person: PersonId, nowMs: InstantMs): readonly LookAgain[] {
  const actor = board.people[person]
  const asksLead = actor !== undefined && hasRight(actor, 'lead')
  const ask = (
    of: Pick<LookAgain, 'nest' | 'label' | 'bird'>,
    hold: Hold | null,
  ): readonly LookAgain[] => {
    const standing = hold ? lookAgainStanding(hold, nowMs) : 'quiet'
    if (!hold || standing === 'quiet' || !(asksLead || hold.by === person)) return []
    const { reason, lookAgainAtMs } = hold
    return [{ kind: 'hold', ...of, reason, lookAgainAtMs, isOverdue: standing === 'overdue' }]
  }
  return Object.values(board.nests).flatMap(({ id: nest, label, hold }) => [
    ...ask({ nest, label, bird: null }, hold),
    ...birdsOf(board, nest).flatMap(({ band, hold: ofBird }, at) =>
      ask({ nest, label, bird: { band, place: at + 1 } }, ofBird),
    ),
  ])
}

/** What this person is asked to look at now, the longest due first. */
export function lookAgains(board: Board, person: PersonId, nowMs: InstantMs): readonly LookAgain[] {
  const actor = board.people[person]
  if (!actor) return []
  const settling = hasRight(actor, 'release') ? arrivals(board, nowMs) : []
  return [...holds(board, person, nowMs), ...settling].sort(
    (a, b) => a.lookAgainAtMs - b.lookAgainAtMs,
  )
}
