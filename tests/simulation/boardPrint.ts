// A second number for a whole board, made without the program's own: it looks at every field there is,
// so that a part the board's hash should leave out is seen all the same. Fields stand in the order in
// which the fold made them, and that is one and the same wherever it runs.

import type { Board } from '../../shared/board/state.ts'

const known = new WeakMap<object, number>()

/** Equal boards have equal prints; made of parts by identity, so that a change costs one part. */
export function printOf(board: Board): number {
  let sum = 0
  for (const [name, table] of Object.entries(board)) {
    // A list is one part: its rows move from place to place, and a row knows nothing of its place.
    const rows = Array.isArray(table) ? [['all', table] as const] : Object.entries(table)
    for (const [id, part] of rows) sum = mixed(sum + printOfPart(`${name} ${id}`, part))
  }
  return sum
}

function printOfPart(place: string, part: unknown): number {
  if (typeof part !== 'object' || part === null) return textPrint(`${place} ${String(part)}`)
  const before = known.get(part)
  if (before !== undefined) return before
  const print = textPrint(`${place} ${JSON.stringify(part)}`)
  known.set(part, print)
  return print
}

function textPrint(text: string): number {
  let print = 0x811c9dc5
  for (let at = 0; at < text.length; at += 1) {
    print = Math.imul(print ^ text.charCodeAt(at), 0x01000193)
  }
  return mixed(print)
}

/** Parts are summed in a fixed order, so a mixing step between them tells their order too. */
const mixed = (sum: number): number => {
  const once = Math.imul(sum ^ (sum >>> 15), 0x2c1b3c6d)
  return (once ^ (once >>> 13)) >>> 0
}
