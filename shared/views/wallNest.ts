// One nest as the wall's strip needs it: what every screen shows of it, and the few things only the
// strip draws beside it. Data only; where it stands is the strip's own sum.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { RequestKind } from '../board/constants.ts'
import type { Board, Nest } from '../board/state.ts'
import { today } from '../rules/feedingHours.ts'
import { openRequests } from '../rules/openRequests.ts'
import { nameOf, type PublicNames } from './names.ts'
import { type NestSummary, nestSummary, warningDoubts } from './nestState.ts'

export type WallNest = NestSummary & {
  /** Asked of somebody who has not answered yet. */
  readonly offer: { readonly person: PersonId; readonly name: string | null } | null
  /** A call that is open at this nest. */
  readonly call: RequestKind | null
  /** Birds of its brood that nobody has counted back. */
  readonly short: number
  readonly isFedTwice: boolean
  /** Not due again before lights out: it sleeps until the room opens. */
  readonly isAsleep: boolean
}

/** Where a nest has two calls, the mark of the first of these. */
const kinds: readonly RequestKind[] = ['help', 'fluids', 'noDroppings']

function isAsleep(board: Board, { state }: NestSummary): boolean {
  const { closesAtMs, nextOpensAtMs } = today(board)
  return state.type === 'later' && closesAtMs < nextOpensAtMs && state.dueAtMs >= closesAtMs
}

/** The nest at `nowMs` on the room's clock. */
export function wallNest(
  board: Board,
  names: PublicNames,
  at: { readonly nest: Nest; readonly nowMs: InstantMs },
): WallNest {
  const summary = nestSummary(board, names, at)
  const { offer, short } = at.nest
  const calls = openRequests(board).filter((request) => request.nest === at.nest.id)
  return {
    ...summary,
    offer: offer && { person: offer.person, name: nameOf(board, names, offer.person) },
    call: kinds.find((kind) => calls.some((request) => request.kind === kind)) ?? null,
    short: short?.missing ?? 0,
    isFedTwice: warningDoubts(at.nest).some((doubt) => doubt.kind === 'twice'),
    isAsleep: isAsleep(board, summary),
  }
}
