// Whom a lead can ask to take a nest: people on shift, those who can be asked first. The rule that
// decides is asked for each, so that no press promises what would be refused.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import type { Rejection } from '../rules/rejection.ts'
import { byName, nameOf, type PublicNames } from './names.ts'
import { wouldRefuse } from './wouldRefuse.ts'

export type Askable = {
  readonly person: PersonId
  readonly name: string | null
  /** Already asked for this very nest. */
  readonly isAsked: boolean
  /** Why not; null where they can be asked. */
  readonly why: Rejection | null
}

/** Everybody on shift but the asker. Where the asker may not ask at all, everybody says so. */
export function whoToAsk(
  board: Board,
  names: PublicNames,
  of: { readonly nest: NestId; readonly person: PersonId; readonly nowMs: InstantMs },
): readonly Askable[] {
  const asked = board.nests[of.nest]?.offer?.person ?? null
  return Object.values(board.people)
    .filter(({ id, shift, isRemoved }) => shift === 'on' && !isRemoved && id !== of.person)
    .map(({ id }) => ({
      person: id,
      name: nameOf(board, names, id),
      isAsked: id === asked,
      why: wouldRefuse(board, { type: 'OfferNest', v: 1, nest: of.nest, person: id }, of),
    }))
    .sort((a, b) => Number(a.why !== null) - Number(b.why !== null) || byName(a, b))
}
