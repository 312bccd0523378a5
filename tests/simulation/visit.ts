// One visit of a simulated person to a nest, as that person knows it, and what they will make of it.
// Their memory outlives every page of their device.

import type { BirdId, NestId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { Chance } from './chance.ts'

/**
 * `parts`: answers some birds first and the rest later. `forget`: walks out and records nothing.
 * `late`: records it when the lease is long over. `away`: is called away in the middle.
 */
export type Habit = 'plain' | 'opens' | 'parts' | 'forget' | 'late' | 'away' | 'givesBack'

export type Visit = {
  readonly nest: NestId
  readonly claimNo: number
  readonly birds: readonly BirdId[]
  readonly habit: Habit
  /** When the person stood at the nest, by the clock of the page they had then. */
  readonly startedMonoMs: number
  readonly life: number
  /** Birds they have answered for. */
  answered: readonly BirdId[]
}

const habits: readonly (readonly [Habit, number])[] = [
  ['plain', 56],
  ['opens', 14],
  ['parts', 9],
  ['late', 6],
  ['forget', 6],
  ['away', 5],
  ['givesBack', 4],
]

export const drawHabit = (chance: Chance): Habit => drawn(chance, habits)

const outcomes: readonly (readonly [Outcome, number])[] = [
  ['ate', 80],
  ['some', 8],
  ['refused', 6],
  ['notFed', 4],
  ['assisted', 2],
]

export function drawAnswer(chance: Chance, bird: BirdId): Answer {
  const outcome = drawn(chance, outcomes)
  if (outcome === 'notFed') return { bird, outcome, reason: chance.oneOf(['asleep', 'cropFull']) }
  if (outcome === 'refused' || chance.happens(0.5)) return { bird, outcome }
  const amount = { unit: 'uL', n: chance.between(100, 900) } as const
  return { bird, outcome, given: { amount, is: chance.oneOf(['planned', 'measured']) } }
}

/** One of them, each as often as its weight says. */
export function drawn<T>(chance: Chance, weighted: readonly (readonly [T, number])[]): T {
  const sum = weighted.reduce((total, [, weight]) => total + weight, 0)
  let left = chance.below(sum)
  for (const [value, weight] of weighted) {
    left -= weight
    if (left < 0) return value
  }
  throw new Error('nothing to draw from')
}
