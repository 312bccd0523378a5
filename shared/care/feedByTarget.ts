// Feeding toward a daily share of body weight, divided evenly over the day's feeds.
// Used where a supervisor sets a target for one bird. Source: HRB2 p. 560.

import { no, ok, type Result } from '../base/control.ts'

export type Target = {
  readonly massMg: number
  /** Of body weight, a day: over 0, at most 100. */
  readonly dailySharePercent: number
  readonly feeds: number
}

export type TargetRefusal =
  | { readonly code: 'NotAMass' }
  | { readonly code: 'NotAShare' }
  | { readonly code: 'NotACountOfFeeds' }

const isCount = (value: number): boolean => Number.isSafeInteger(value) && value > 0

/** Whole milligrams of food a feed, rounded down: weight × daily share ÷ feeds. */
export function perFeedMg(target: Target): Result<number, TargetRefusal> {
  const { massMg, dailySharePercent, feeds } = target
  if (!isCount(massMg)) return no({ code: 'NotAMass' })
  if (!(dailySharePercent > 0 && dailySharePercent <= 100)) return no({ code: 'NotAShare' })
  if (!isCount(feeds)) return no({ code: 'NotACountOfFeeds' })
  return ok(Math.floor((massMg * dailySharePercent) / (100 * feeds)))
}
