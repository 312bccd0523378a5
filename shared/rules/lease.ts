// How long a claim lasts: time to reach the nest, and time to feed the birds in it. A forgotten claim
// must end by itself, and never so early that two people stand at one nest.

import { clamp, type InstantMs, type LengthMs } from '../base/values.ts'
import { afterOutageMs, feedLeaseMs, perBirdMs, setUpMs, toNestMs } from '../board/constants.ts'
import type { Board, Held } from '../board/state.ts'

/** Twice the time a brood of this size usually takes, held between 4 and 15 minutes. */
export const feedingMs = (birds: number): LengthMs =>
  clamp(2 * (setUpMs + birds * perBirdMs), feedLeaseMs.least, feedLeaseMs.most)

/** The lease of a claim made now. */
export const claimLeaseMs = (birds: number): LengthMs => toNestMs + feedingMs(birds)

/**
 * When the claim truly ends: nobody's ends before the server has been back for a minute, because
 * nobody could have recorded anything while it was gone.
 */
export const leaseOverAtMs = (board: Board, held: Held): InstantMs =>
  Math.max(held.leaseEndsAtMs, board.room.openedAtMs + afterOutageMs)
