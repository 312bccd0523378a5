// Where randomness comes from, as a port: salts, tokens and codes in the real room, repeatable ones in
// tests. Never used by a rule.

import { randomBytes } from 'node:crypto'

export interface Chance {
  /** So many bytes that nobody can guess. */
  bytes(count: number): Uint8Array
}

export const realChance: Chance = { bytes: (count) => randomBytes(count) }
