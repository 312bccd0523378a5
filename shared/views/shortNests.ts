// Nests from which not every bird was counted back: somewhere in the room is a bird. Everybody is told
// until it is found.

import type { InstantMs, NestId } from '../base/values.ts'
import type { Board } from '../board/state.ts'

export type ShortNest = {
  readonly nest: NestId
  readonly label: string
  readonly missing: number
  readonly sinceMs: InstantMs
}

/** All of them, the longest missing first. */
export const shortNests = (board: Board): readonly ShortNest[] =>
  Object.values(board.nests)
    .flatMap(({ id: nest, label, short }) => (short ? [{ nest, label, ...short }] : []))
    .map(({ nest, label, missing, sinceMs }) => ({ nest, label, missing, sinceMs }))
    .sort((a, b) => a.sinceMs - b.sinceMs)
