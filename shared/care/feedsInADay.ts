// How many feeds an interval makes of a feeding day, the first and the last both counted.
// Arithmetic only: what a bird's interval is stands in its care plan.

import { no, ok, type Result } from '../base/control.ts'
import { hourMs, minuteMs } from '../base/values.ts'

export type FeedsRefusal = { readonly code: 'NotHoursOfADay' } | { readonly code: 'NotAnInterval' }

const hoursMax = 24

/**
 * Feeds from the first to the last inclusive: floor(hours × 60 ÷ interval) + 1. `hours` is over 0
 * and at most 24, `intervalMin` is at least a millisecond; anything else is refused by name.
 */
export function feedsInADay(hours: number, intervalMin: number): Result<number, FeedsRefusal> {
  if (!(hours > 0 && hours <= hoursMax)) return no({ code: 'NotHoursOfADay' })
  // Whole milliseconds first, so that a fraction of an hour cannot lose the last feed to rounding.
  const intervalMs = Math.round(intervalMin * minuteMs)
  if (!(Number.isSafeInteger(intervalMs) && intervalMs > 0)) return no({ code: 'NotAnInterval' })
  return ok(Math.floor(Math.round(hours * hourMs) / intervalMs) + 1)
}
