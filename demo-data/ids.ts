// The ids a demo room's parts will have: they count up in the order things are put on the board.

import {
  type BirdId,
  type IncubatorId,
  type LengthMs,
  minuteMs,
  type NestId,
  type PersonId,
  type PlanId,
} from '../shared/base/values.ts'

export const person = (n: number) => `p${n}` as PersonId
export const incubator = (n: number) => `i${n}` as IncubatorId
export const nest = (n: number) => `n${n}` as NestId
export const bird = (n: number) => `b${n}` as BirdId
export const plan = (n: number) => `c${n}` as PlanId

/** Minutes, halves too, as whole milliseconds. */
export const minutes = (n: number): LengthMs => Math.round(n * minuteMs)
