// "3 ate, 1 refused": a visit's outcomes counted, for one line on a screen.

import { type Outcome, outcomes } from '../board/constants.ts'

export type Tally = { readonly outcome: Outcome; readonly n: number }

/** How often each outcome occurred, in the order outcomes are listed everywhere; none that did not. */
export const tallyOf = (list: readonly Outcome[]): readonly Tally[] =>
  outcomes
    .map((outcome) => ({ outcome, n: list.filter((one) => one === outcome).length }))
    .filter(({ n }) => n > 0)
