// A label for a nest that has just arrived, so that nobody types one in the middle of a round: the
// first of A to Z, then AA, AB …, that no nest carries. I and O are skipped: they read as 1 and 0.

import { nestsMax } from '../board/constants.ts'
import type { Board } from '../board/state.ts'

const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'

/** The n-th label, from 0: A … Z, AA … */
function labelAt(n: number): string {
  const last = letters[n % letters.length] ?? 'A'
  const before = Math.floor(n / letters.length)
  return before === 0 ? last : `${labelAt(before - 1)}${last}`
}

/** The first free label. Never more tries than a room can hold nests, and one. */
export function freeLabel(board: Board): string {
  const taken = new Set(Object.values(board.nests).map((nest) => nest.label))
  for (let n = 0; n <= nestsMax; n += 1) {
    const label = labelAt(n)
    if (!taken.has(label)) return label
  }
  throw new Error('more labels are taken than a room can hold nests')
}
