// "Formula 0.6 mL each": the plans of some birds as one line each, so that a brood on one plan reads as
// one line and a mixed brood says which bird gets what.

import type { Amount, BirdId } from '../base/values.ts'
import type { Technique } from '../board/constants.ts'
import type { Bird, Board } from '../board/state.ts'
import { planOf } from '../rules/due.ts'

export type PlanLine = {
  readonly label: string
  readonly technique: Technique
  readonly planned: Amount | null
  /** Whose plan this is; all of the birds asked about where there is one line only. */
  readonly birds: readonly BirdId[]
}

/** One line for each plan in use, in the order of the birds; birds without a plan are in none. */
export function planLines(board: Board, birds: readonly Bird[]): readonly PlanLine[] {
  const plans = new Set(birds.map((bird) => planOf(board, bird)).filter((plan) => plan !== null))
  return [...plans].map((plan) => ({
    label: plan.label,
    technique: plan.technique,
    planned: plan.planned,
    birds: birds.filter((bird) => bird.plan === plan.id).map((bird) => bird.id),
  }))
}
