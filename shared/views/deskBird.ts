// How the desk names one bird of a nest, wherever a call, a doubt, a hold or a record speaks of it.

import type { BirdId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Board } from '../board/state.ts'

export type NamedBird = {
  readonly bird: BirdId
  readonly band: string | null
  /** Its place in the brood from 1, for a bird that carries no band. */
  readonly place: number
}

/** Null for a bird the board no longer has. */
export function namedBird(board: Board, id: BirdId): NamedBird | null {
  const bird = board.birds[id]
  if (!bird) return null
  const place = birdsOf(board, bird.nest).findIndex((one) => one.id === id) + 1
  return { bird: id, band: bird.band, place }
}
