// What whoever comes to a nest must know before feeding it: somebody may have fed it, it seems recorded
// twice, or a bird of its last visit went without and nobody knows which. Each means: look before you
// feed. Read by the claim in hand, by a nest's own page and by the nest that comes next.

import type { InstantMs } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { NotKnownWhich } from '../board/parts.ts'
import type { Board, Doubt, Nest } from '../board/state.ts'
import { unsureFeed } from '../rules/due.ts'
import { nameOf, type PublicNames } from './names.ts'
import { warningDoubts } from './nestState.ts'

export type NestWarning =
  | {
      readonly type: 'perhapsFed'
      readonly no: number
      readonly name: string | null
      readonly aboutAtMs: InstantMs
    }
  /** The times of the two records, the earlier first. */
  | {
      readonly type: 'twice'
      readonly no: number
      readonly firstAtMs: InstantMs
      readonly secondAtMs: InstantMs
    }
  | {
      readonly type: 'hungry'
      readonly no: number
      readonly startedAtMs: InstantMs
      readonly notKnownWhich: NotKnownWhich
      readonly brood: number
    }

function ofDoubt(board: Board, names: PublicNames, nest: Nest, doubt: Doubt): NestWarning {
  const { no, pair, aboutAtMs } = doubt
  if (pair === null) {
    return { type: 'perhapsFed', no, name: nameOf(board, names, doubt.owner), aboutAtMs }
  }
  const starts = pair.map(
    (one) => nest.rounds.find((round) => round.no === one)?.startedAtMs ?? aboutAtMs,
  )
  return { type: 'twice', no, firstAtMs: Math.min(...starts), secondAtMs: Math.max(...starts) }
}

/** The last visit after which some bird went without, while its crops have not been looked at. */
function hungry(board: Board, nest: Nest): readonly NestWarning[] {
  const birds = birdsOf(board, nest.id)
  const unsure = new Set(birds.flatMap((bird) => unsureFeed(bird)?.no ?? []))
  const round = nest.rounds.findLast(({ no }) => unsure.has(no))
  if (!round?.notKnownWhich) return []
  const { no, startedAtMs, notKnownWhich } = round
  return [{ type: 'hungry', no, startedAtMs, notKnownWhich, brood: round.birds.length }]
}

/** Every reason to look first, the oldest doubt first; empty where there is none. */
export const nestWarnings = (
  board: Board,
  names: PublicNames,
  nest: Nest,
): readonly NestWarning[] => [
  ...warningDoubts(nest).map((doubt) => ofDoubt(board, names, nest, doubt)),
  ...hungry(board, nest),
]
