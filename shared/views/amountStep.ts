// How far one tap of + or − moves an amount: small where little is given, so that a wet glove neither
// needs thirty taps nor overshoots. Steps are ours, no source.

import { unreachable } from '../base/control.ts'
import type { Amount } from '../base/values.ts'

function stepOf(amount: Amount): number {
  switch (amount.unit) {
    case 'pieces':
      return 1
    case 'uL':
      return amount.n < 1_000 ? 50 : amount.n < 5_000 ? 250 : 1_000
    case 'mg':
      return amount.n < 1_000 ? 50 : 250
    default:
      return unreachable(amount.unit)
  }
}

/** One step more; the amount comes to stand on a whole step. */
export function stepUp(amount: Amount): Amount {
  const step = stepOf(amount)
  return { ...amount, n: (Math.floor(amount.n / step) + 1) * step }
}

/** One step less, never below nothing. The step is that of the smaller side, so that up undoes down. */
export function stepDown(amount: Amount): Amount {
  if (amount.n === 0) return amount
  const step = stepOf({ ...amount, n: amount.n - 1 })
  return { ...amount, n: (Math.ceil(amount.n / step) - 1) * step }
}
