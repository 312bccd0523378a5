// Every nest of the room for a person who wants another than the one shown: those this person could
// take now first, in waiting order, then the rest. Any of them may be opened.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { claimWay } from './claimWay.ts'
import type { PublicNames } from './names.ts'
import { inWaitingOrder } from './nestOrder.ts'
import { type NestSummary, nestSummary } from './nestState.ts'

export type ListedNest = NestSummary & { readonly canTake: boolean }

/** All nests at `nowMs`, what this person can take first. */
export function listView(
  board: Board,
  names: PublicNames,
  of: { readonly person: PersonId; readonly nowMs: InstantMs },
): readonly ListedNest[] {
  const { person, nowMs } = of
  return Object.values(board.nests)
    .map((nest) => {
      const way = claimWay(board, { person, nest: nest.id, nowMs })
      const canTake = way.type === 'claim' || way.type === 'lookFirst'
      return { ...nestSummary(board, names, { nest, nowMs }), canTake }
    })
    .sort((a, b) => Number(b.canTake) - Number(a.canTake) || inWaitingOrder(a, b))
}
