// Where a brood or a bird can go: every place, with what stands in the way of it. Asked of the rules.

import type { BirdId, IncubatorId, InstantMs, NestId, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import type { Rejection } from '../rules/rejection.ts'
import { byLabel } from './nestOrder.ts'
import { wouldRefuse } from './wouldRefuse.ts'

type Asker = { readonly person: PersonId; readonly nowMs: InstantMs }

export type IncubatorPlace = {
  readonly incubator: IncubatorId
  readonly label: string
  readonly nests: number
  readonly isHere: boolean
}

/** Every incubator by label. */
export function incubatorPlaces(board: Board, nest: NestId): readonly IncubatorPlace[] {
  const nests = Object.values(board.nests)
  return Object.values(board.incubators)
    .map(({ id, label }) => ({
      ...{ incubator: id, label, isHere: board.nests[nest]?.incubator === id },
      nests: nests.filter(({ incubator }) => incubator === id).length,
    }))
    .sort(byLabel)
}

/** Why this brood cannot be moved at all now; null when it can. */
export function whyNotMoveNest(board: Board, nest: NestId, of: Asker): Rejection | null {
  const other = Object.keys(board.incubators).find((id) => id !== board.nests[nest]?.incubator)
  if (other === undefined) return null
  return wouldRefuse(board, { type: 'MoveNest', v: 1, nest, incubator: other as IncubatorId }, of)
}

export type NestPlace = {
  readonly nest: NestId
  readonly label: string
  readonly incubatorLabel: string
  readonly isQuarantined: boolean
  /** The quarantine differs and has to be decided first. */
  readonly needsDecision: boolean
  /** What else stands in the way; null where nothing does. */
  readonly why: Rejection | null
}

/** Every other nest by label, as a place for this bird. */
export function nestPlaces(board: Board, bird: BirdId, of: Asker): readonly NestPlace[] {
  return Object.values(board.nests)
    .filter(({ id }) => id !== board.birds[bird]?.nest)
    .map(({ id, label, incubator, isQuarantined }) => {
      const why = wouldRefuse(board, { type: 'MoveBird', v: 1, bird, nest: id }, of)
      const needsDecision = why?.code === 'QuarantineDiffers'
      return {
        ...{ nest: id, label, isQuarantined, needsDecision },
        incubatorLabel: board.incubators[incubator]?.label ?? '',
        why: needsDecision ? null : why,
      }
    })
    .sort(byLabel)
}
