// One number for a whole board: equal boards have equal numbers, on the server and on every screen.
// Summed from the hashes of its parts, which are kept by identity, so a change costs one part.

import { canonical, hashText } from '../base/hash.ts'
import type { Board } from './state.ts'

const modulus = 2 ** 53
const known = new WeakMap<object, number>()

function hashPart(name: string, part: object): number {
  const before = known.get(part)
  if (before !== undefined) return before
  const hash = hashText(`${name}:${canonical(part)}`)
  known.set(part, hash)
  return hash
}

// Both terms are below 2^53; subtracting first keeps every step exact.
const add = (a: number, b: number): number => (a >= modulus - b ? a - (modulus - b) : a + b)

/** A whole number from 0 to 2^53 - 1. */
export function hashBoard(board: Board): number {
  const { room, days, counters, notices, setAside, ...tables } = board
  let sum = 0
  for (const [name, part] of Object.entries({ room, days, counters, notices, setAside })) {
    sum = add(sum, hashPart(name, part))
  }
  for (const [table, rows] of Object.entries(tables)) {
    for (const [id, row] of Object.entries(rows)) sum = add(sum, hashPart(`${table}.${id}`, row))
  }
  return sum
}
