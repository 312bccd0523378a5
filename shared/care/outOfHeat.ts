// How long a brood may be out of the heat while it is fed, by how much feather it has. Words beside the
// clock of a visit; nothing is alerted by them.

import type { LengthMs } from '../base/values.ts'
import { minuteMs } from '../base/values.ts'
import { commonPractice, type Sourced } from './sourced.ts'

export type OutOfHeatLimit = Sourced & {
  readonly stage: 'naked' | 'pinsOut' | 'feathered'
  readonly mostMs: LengthMs
}

/** The barest first; common practice, no source. */
export const outOfHeatLimits: readonly OutOfHeatLimit[] = [
  { ...commonPractice, stage: 'naked', mostMs: 5 * minuteMs },
  { ...commonPractice, stage: 'pinsOut', mostMs: 8 * minuteMs },
  { ...commonPractice, stage: 'feathered', mostMs: 15 * minuteMs },
]
