// The claim a person has in hand: its birds, how they are fed, what was already answered, and how long
// it still runs. What a finger has tapped and not yet saved is the screen's own, not here.

import {
  type BirdId,
  type InstantMs,
  minuteMs,
  type NestId,
  type PersonId,
} from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import { claimMaxMs, moreTimeMs, type Outcome } from '../board/constants.ts'
import type { Bird, Board, Held, Nest } from '../board/state.ts'
import { claimOf } from '../rules/decision.ts'
import { leaseOverAtMs } from '../rules/lease.ts'
import { isUntouched } from '../rules/whyNotClaim.ts'
import { type BirdRow, birdRow } from './birdRow.ts'
import { type CropLook, cropShown } from './cropShown.ts'
import type { PublicNames } from './names.ts'
import { type NestWarning, nestWarnings } from './nestWarnings.ts'
import { type PlanLine, planLines } from './planLine.ts'

export type ClaimedBird = BirdRow & {
  /** What this visit's record already says of it; null while unanswered. */
  readonly answered: Outcome | null
}

/** A bird of the nest that is not in the claim, and must not be fed under it. */
export type StruckBird = BirdRow & { readonly why: 'held' | 'settling' | 'notNow' }

export type ClaimView = {
  readonly nest: NestId
  readonly label: string
  readonly incubatorLabel: string
  readonly claimNo: number
  readonly claimedAtMs: InstantMs
  /** When the visit began: as tapped, or as claimed while nobody has said the nest is open. */
  readonly startedAtMs: InstantMs
  readonly isOpened: boolean
  /** In this room a feeder taps "nest is open", so that the time out of the heat is truly known. */
  readonly usesStartTap: boolean
  readonly endsAtMs: InstantMs
  /** Until when one more request would make it last; null where no more is left. */
  readonly moreTimeUntilMs: InstantMs | null
  /** Untouched and young: it goes back without a question. */
  readonly canGiveBack: boolean
  readonly stop: Held['stop']
  readonly plans: readonly PlanLine[]
  readonly birds: readonly ClaimedBird[]
  readonly struck: readonly StruckBird[]
  /** Which crop can be seen in this claim; null for birds that show none. */
  readonly cropLook: CropLook | null
  /** How many should be counted back: the whole brood, fed or not. */
  readonly brood: number
  /** Birds of it that an earlier count already missed. */
  readonly missing: number
  readonly warnings: readonly NestWarning[]
}

const answeredUnder = (bird: Bird, no: number): Outcome | null =>
  bird.feeds.find((feed) => feed.no === no)?.outcome ?? null

function whyStruck(row: BirdRow): StruckBird['why'] {
  if (row.isSettling) return 'settling'
  return row.hold ? 'held' : 'notNow'
}

function rowsOf(board: Board, nest: Nest, held: Held) {
  const rows = birdsOf(board, nest.id).map((bird, at) => ({
    row: birdRow(board, { nest, bird, place: at + 1 }),
    answered: answeredUnder(bird, held.claimNo),
  }))
  const isClaimed = (bird: BirdId) => held.birds.includes(bird)
  return {
    birds: rows
      .filter(({ row }) => isClaimed(row.bird))
      .map(({ row, answered }) => ({ ...row, answered })),
    struck: rows
      .filter(({ row }) => !isClaimed(row.bird))
      .map(({ row }) => ({ ...row, why: whyStruck(row) })),
  }
}

/** As the rule has it: five minutes on, at most half an hour from the start, never by under a minute. */
function moreTimeUntilMs(held: Held): InstantMs | null {
  const untilMs = Math.min(held.leaseEndsAtMs + moreTimeMs, held.startedAtMs + claimMaxMs)
  return untilMs - held.leaseEndsAtMs < minuteMs ? null : untilMs
}

/** What this person has in hand at `nowMs`; null when that is nothing. */
export function claimView(
  board: Board,
  names: PublicNames,
  of: { readonly person: PersonId; readonly nowMs: InstantMs },
): ClaimView | null {
  const claim = claimOf(board, of.person)
  if (!claim) return null
  const { nest, held } = claim
  const brood = birdsOf(board, nest.id)
  const claimed = brood.filter((bird) => held.birds.includes(bird.id))
  return {
    nest: nest.id,
    label: nest.label,
    incubatorLabel: board.incubators[nest.incubator]?.label ?? '',
    claimNo: held.claimNo,
    claimedAtMs: held.claimedAtMs,
    startedAtMs: held.startedAtMs,
    isOpened: held.startIs === 'tapped',
    usesStartTap: board.room.usesStartTap,
    endsAtMs: leaseOverAtMs(board, held),
    moreTimeUntilMs: moreTimeUntilMs(held),
    canGiveBack: isUntouched(held, of.nowMs),
    stop: held.stop,
    plans: planLines(board, claimed),
    ...rowsOf(board, nest, held),
    cropLook: cropShown(claimed.map((bird) => bird.species)),
    brood: brood.length,
    missing: nest.short?.missing ?? 0,
    warnings: nestWarnings(board, names, nest),
  }
}
