// The shape of a default care plan and the few figures all of them share. The plans themselves are
// in gapeFedPlans.ts and cropFedPlans.ts; what a room really uses is its own copy on the board.

import type { AmountUnit, LengthMs } from '../base/values.ts'
import type { AmountGroup } from './amounts.ts'
import type { Sourced } from './sourced.ts'

export type PlanGroup =
  | 'smallInsectivore'
  | 'houseFinch'
  | 'smallSongbird'
  | 'robinSizedSongbird'
  | 'swift'
  | 'hummingbird'
  | 'dove'
  | 'pigeon'
  | 'corvid'
  | 'woodpecker'
  | 'swallow'

export type PlanStage = 'hatchling' | 'nestling' | 'fledgling'

export type PlanTechnique = 'gapeSyringe' | 'cropTube' | 'swiftHand' | 'hummingbird'

/** How much a feed is about, in whole units of the plan's `amountUnit`. */
export type PlanAmount = Sourced & { readonly lo: number; readonly hi: number }

/**
 * `source` and `trust` are those of the interval; where the interval is blank, of the technique.
 * Nothing here is binding: a supervisor changes any of it, and has to fill in what is blank.
 */
export type DefaultPlan = Sourced & {
  readonly id: string
  readonly group: PlanGroup
  readonly stages: readonly PlanStage[]
  /** The lightest bird the plan is for, where a table goes by weight; null where it does not. */
  readonly fromMassMg: number | null
  readonly technique: PlanTechnique
  /** null: nothing was read, or the table counts feeds a day; the supervisor fills it in. */
  readonly intervalMs: LengthMs | null
  /** Both ends of what the source says, the interval among them; null where it is blank. */
  readonly intervalRange: { readonly loMs: LengthMs; readonly hiMs: LengthMs } | null
  /** The share of the interval by which a feed may come early. */
  readonly earlyShare: number
  /** Whose cap holds; null: no cap was read for these birds. */
  readonly amountGroup: AmountGroup | null
  readonly amountUnit: AmountUnit
  readonly amount: PlanAmount | null
}

export const everyStage: readonly PlanStage[] = ['hatchling', 'nestling', 'fledgling']

/** A gaping songbird may be fed a tenth of its interval early. Ours, no source. */
export const gapeFedEarlyShare = 0.1

/** Nothing tubed, and nothing with a sign-off of its own: more meals overfill (HRB2 p. 746). */
export const neverEarly = 0
