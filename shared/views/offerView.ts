// The nest this person is asked to take: as it stands, why it waits, and how long the question does.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { nestDueAtMs, readyBirds } from '../rules/due.ts'
import { isFree, offeredTo } from '../rules/offers.ts'
import { claimWay } from './claimWay.ts'
import { nameOf, type PublicNames } from './names.ts'
import { type NextNest, nestShown } from './nextView.ts'

export type OfferView = {
  readonly next: NextNest
  readonly endsAtMs: InstantMs
  /** Whoever asked; null where the board asks by itself. */
  readonly by: PersonId | null
  readonly byName: string | null
}

/** What this person is asked at `nowMs`; null when nothing, or when their hands are no longer free. */
export function offerView(
  board: Board,
  names: PublicNames,
  of: { readonly person: PersonId; readonly nowMs: InstantMs },
): OfferView | null {
  const { person, nowMs } = of
  const nest = offeredTo(board, person)
  if (!nest?.offer || !isFree(board, person) || nowMs >= nest.offer.endsAtMs) return null
  const dueAtMs = nestDueAtMs(board, nest.id, person)
  const birds = readyBirds(board, nest.id, person, nowMs)
  if (dueAtMs === null || birds.length === 0) return null
  const way = claimWay(board, { person, nest: nest.id, nowMs })
  const doubts = way.type === 'lookFirst' ? way.doubts : []
  const { by, endsAtMs } = nest.offer
  const next = nestShown(board, names, { ...of, nest, dueAtMs, birds, doubts })
  return { next, endsAtMs, by, byName: nameOf(board, names, by) }
}
