// In which order nests stand, on a lane of the wall and in the handheld's list: what waits for somebody
// first, what must not be fed last. Which nest a person should take next is not decided here.

import type { InstantMs } from '../base/values.ts'
import type { NestState, NestSummary } from './nestState.ts'

/** What stands first: what waits for somebody, then what somebody has. */
const standing: Readonly<Record<NestState['type'], number>> = {
  late: 0,
  due: 1,
  claimed: 2,
  soon: 3,
  later: 4,
  settling: 5,
  held: 6,
  unplanned: 7,
}

const instantOf = (state: NestState): InstantMs => {
  switch (state.type) {
    case 'claimed':
      return state.sinceMs
    case 'held':
      return state.lookAgainAtMs
    case 'settling':
      return state.lookDueAtMs
    case 'unplanned':
      return 0
    default:
      return state.dueAtMs
  }
}

/** The longest waiting first within a kind; nests that say the same stand by label. */
export function inWaitingOrder(a: NestSummary, b: NestSummary): number {
  return (
    standing[a.state.type] - standing[b.state.type] ||
    instantOf(a.state) - instantOf(b.state) ||
    byLabel(a, b)
  )
}

/** Labels as people count them: 2 before 10, B before AA. */
export function byLabel(a: { readonly label: string }, b: { readonly label: string }): number {
  if (a.label.length !== b.label.length) return a.label.length - b.label.length
  if (a.label === b.label) return 0
  return a.label < b.label ? -1 : 1
}
