// A claim that ended without its holder's doing, for a little while after: the time ran out, or somebody
// else's record left nothing to feed. The board keeps it, so a screen that was away still says so.

import type { InstantMs, PersonId } from '../base/values.ts'
import { minuteMs } from '../base/values.ts'
import type { Board } from '../board/state.ts'

export type CalledOff = {
  readonly label: string
  readonly claimNo: number
  readonly how: 'lapsed' | 'calledOff'
  readonly atMs: InstantMs
}

/** Shown this long: long enough to come back to the screen, short enough not to be old news. */
const shownMs = 2 * minuteMs

/** The latest such end of this person's claims; null when there was none lately. */
export function calledOffView(board: Board, person: PersonId, nowMs: InstantMs): CalledOff | null {
  let latest: CalledOff | null = null
  for (const { label, lastEnd } of Object.values(board.nests)) {
    if (lastEnd?.person !== person || nowMs - lastEnd.atMs >= shownMs) continue
    const { claimNo, how, atMs } = lastEnd
    if (how !== 'lapsed' && how !== 'calledOff') continue
    if (latest === null || atMs > latest.atMs) latest = { label, claimNo, how, atMs }
  }
  return latest
}
