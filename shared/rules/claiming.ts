// Asking for a nest, keeping it and giving it back, and what each does to the board. Whether a person
// may have it at all is asked of `whyNotClaim`.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import { withCounter, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { claimMaxMs, moreTimeMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Held } from '../board/state.ts'
import type { Context } from './context.ts'
import {
  claimOf,
  type Decision,
  type Events,
  happened,
  heldBy,
  nextVisit,
  nothingNew,
  refuse,
} from './decision.ts'
import { claimLeaseMs } from './lease.ts'
import { offerAnswered, withFreshPerson } from './offers.ts'
import { birdsToClaim, isUntouched, whyNotClaim } from './whyNotClaim.ts'

/** The event that puts these birds of a nest into a person's hands from now. */
export function claimed(
  board: Board,
  nest: NestId,
  birds: readonly BirdId[],
  claim: { person: PersonId; nowMs: InstantMs; startedAtMs: InstantMs; startIs: Held['startIs'] },
): EventOf<'NestClaimed'> {
  return {
    type: 'NestClaimed',
    v: 1,
    nest,
    claimNo: nextVisit(board),
    person: claim.person,
    birds: [...birds],
    atMs: claim.nowMs,
    startedAtMs: claim.startedAtMs,
    startIs: claim.startIs,
    leaseEndsAtMs: claim.nowMs + claimLeaseMs(birds.length),
  }
}

/** Ends an untouched claim this person has elsewhere; nothing when they have none. */
export function givenBackElsewhere(board: Board, person: PersonId, nowMs: InstantMs): Events {
  const other = claimOf(board, person)
  return other && isUntouched(other.held, nowMs)
    ? [claimEnded(other.nest.id, other.held.claimNo, 'givenBack', nowMs)]
    : []
}

export const claimEnded = (
  nest: NestId,
  claimNo: number,
  how: EventOf<'ClaimEnded'>['how'],
  atMs: InstantMs,
): EventOf<'ClaimEnded'> => ({ type: 'ClaimEnded', v: 1, nest, claimNo, how, atMs })

export function decideClaim(
  board: Board,
  command: CommandOf<'ClaimNest'>,
  context: Context,
): Decision {
  const { by, nowMs } = context
  const why = whyNotClaim(board, by, command.nest, nowMs, command)
  if (why) return refuse(why)
  const nest = board.nests[command.nest]
  if (nest && heldBy(nest)) return nothingNew
  const birds = birdsToClaim(board, command.nest, by, nowMs, command).map((bird) => bird.id)
  const claim = claimed(board, command.nest, birds, {
    person: by,
    nowMs,
    startedAtMs: nowMs,
    startIs: 'estimated',
  })
  return happened(
    ...givenBackElsewhere(board, by, nowMs),
    ...(nest ? offerAnswered(nest, by, nowMs) : []),
    command.extra ? { ...claim, extra: command.extra } : claim,
  )
}

export function decideGiveBack(
  board: Board,
  command: CommandOf<'GiveBack'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  const held = heldBy(nest)
  if (!held) return nothingNew
  if (held.person !== context.by) return refuse({ code: 'NotYours' })
  if (held.claimNo !== command.claimNo) return nothingNew
  if (!isUntouched(held, context.nowMs)) return refuse({ code: 'SayWhatHappenedFirst' })
  return happened(claimEnded(nest.id, held.claimNo, 'givenBack', context.nowMs))
}

export function decideMoreTime(
  board: Board,
  command: CommandOf<'MoreTime'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  const held = heldBy(nest)
  if (held?.person !== context.by || held.claimNo !== command.claimNo) {
    return refuse({ code: 'NotYours' })
  }
  const most = held.startedAtMs + claimMaxMs
  const leaseEndsAtMs = Math.min(held.leaseEndsAtMs + moreTimeMs, most)
  if (leaseEndsAtMs <= held.leaseEndsAtMs) {
    return refuse({ code: 'LongEnough', leaseEndsAtMs: held.leaseEndsAtMs })
  }
  return happened({
    type: 'LeaseExtended',
    v: 1,
    nest: nest.id,
    claimNo: held.claimNo,
    leaseEndsAtMs,
  })
}

/** Changes the claim of a nest, if it is still the one named. */
const withClaim = (
  board: Board,
  event: { nest: NestId; claimNo: number },
  change: (held: Held) => Held,
): Board =>
  withNest(board, event.nest, (nest) =>
    nest.hands.type === 'held' && nest.hands.claimNo === event.claimNo
      ? { ...nest, hands: change(nest.hands) }
      : nest,
  )

export function evolveClaimed(board: Board, event: EventOf<'NestClaimed'>): Board {
  const hands: Held = {
    type: 'held',
    claimNo: event.claimNo,
    person: event.person,
    birds: event.birds,
    answered: [],
    claimedAtMs: event.atMs,
    startedAtMs: event.startedAtMs,
    startIs: event.startIs,
    leaseEndsAtMs: event.leaseEndsAtMs,
    stop: null,
    extraAfter: event.extra?.afterFeed ?? null,
  }
  const claimedBoard = withNest(board, event.nest, (nest) => ({ ...nest, hands }))
  return withCounter(claimedBoard, 'visit', event.claimNo)
}

export const evolveLease = (board: Board, event: EventOf<'LeaseExtended'>): Board =>
  withClaim(board, event, (held) => ({ ...held, leaseEndsAtMs: event.leaseEndsAtMs }))

export const evolveStarted = (board: Board, event: EventOf<'FeedStarted'>): Board =>
  withClaim(board, event, (held) => ({
    ...held,
    startedAtMs: event.startedAtMs,
    startIs: 'tapped',
    leaseEndsAtMs: event.leaseEndsAtMs,
  }))

export const evolveStruck = (board: Board, event: EventOf<'ClaimBirdsStruck'>): Board =>
  withClaim(board, event, (held) => ({
    ...held,
    birds: held.birds.filter((bird) => !event.birds.includes(bird)),
  }))

export const evolveStop = (board: Board, event: EventOf<'StopCalled'>): Board =>
  withClaim(board, event, (held) => ({ ...held, stop: event.why }))

/** The nest is free, and so is its holder: whatever they were not asked for before, they may be now. */
export function evolveEnded(board: Board, event: EventOf<'ClaimEnded'>): Board {
  const held = board.nests[event.nest]?.hands
  if (held?.type !== 'held' || held.claimNo !== event.claimNo) return board
  return withFreshPerson(handsFreed(board, event), held.person)
}

const handsFreed = (board: Board, event: EventOf<'ClaimEnded'>): Board =>
  withNest(board, event.nest, (nest) => {
    if (nest.hands.type !== 'held' || nest.hands.claimNo !== event.claimNo) return nest
    const { claimNo, person } = nest.hands
    const lastEnd = { claimNo, person, how: event.how, atMs: event.atMs }
    return { ...nest, hands: { type: 'free' }, lastEnd }
  })
