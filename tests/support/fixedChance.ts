// Randomness that repeats: the same seed gives the same salts, tokens and codes.

import type { Chance } from '../../server/clock/chance.ts'
import { seededChoose } from './seededChoose.ts'

export function fixedChance(seed: number): Chance {
  const choose = seededChoose(seed)
  return { bytes: (count) => Uint8Array.from({ length: count }, () => choose(256)) }
}
