// Asking for a nest and giving it back: who gets it, why not, and for how long. `whyNotClaim` is also
// what a button asks before it is drawn, so a screen and the server can never disagree on a reason.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf, withCounter, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { claimMaxMs, moreTimeMs, untouchedMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Bird, Board, Held, Nest } from '../board/state.ts'
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
import { birdDueAtMs, birdReadyAtMs, intervalMs, isHeld, lastFedAtMs, planOf } from './due.ts'
import { claimLeaseMs } from './lease.ts'
import type { NotReady, Rejection } from './rejection.ts'

/** What a person adds to a claim: doubts they were shown, or that they mean it although it is early. */
export type ClaimOptions = Pick<CommandOf<'ClaimNest'>, 'seenDoubts' | 'sureEarly' | 'extra'>

/** Why this person may not feed this bird now; null when they may. */
export function whyNotFeed(
  board: Board,
  bird: Bird,
  person: PersonId,
  nowMs: InstantMs,
): NotReady | null {
  const nest = board.nests[bird.nest]
  const plan = planOf(board, bird)
  if (bird.standing.type === 'settling') return { type: 'settling' }
  if (nest && isHeld(nest, bird)) {
    return { type: 'held', reason: (bird.hold ?? nest.hold)?.reason ?? '' }
  }
  if (!plan) return { type: 'noPlan' }
  if (!board.people[person]?.signOffs.includes(plan.technique)) {
    const have = Object.values(board.people).filter(
      (other) => other.signOffs.includes(plan.technique) && !other.isRemoved,
    )
    return { type: 'needsSignOff', technique: plan.technique, have: have.map((other) => other.id) }
  }
  return tooSoon(board, bird, nowMs)
}

function tooSoon(board: Board, bird: Bird, nowMs: InstantMs): NotReady | null {
  const readyAtMs = birdReadyAtMs(board, bird)
  const dueAtMs = birdDueAtMs(board, bird)
  if (readyAtMs === null || dueAtMs === null || readyAtMs <= nowMs) return null
  const isUnderHalf = dueAtMs - nowMs > intervalMs(board, bird) / 2
  return {
    type: 'tooSoon',
    readyAtMs,
    fedAtMs: lastFedAtMs(bird),
    needs: isUnderHalf ? 'extra' : 'sureEarly',
  }
}

/** The birds a claim would carry: those ready, and those early ones the person said they mean. */
function birdsToClaim(
  board: Board,
  nest: NestId,
  person: PersonId,
  nowMs: InstantMs,
  options: ClaimOptions,
): readonly Bird[] {
  return birdsOf(board, nest).filter((bird) => {
    const why = whyNotFeed(board, bird, person, nowMs)
    if (why === null) return true
    if (why.type !== 'tooSoon') return false
    if (options.extra?.birds.includes(bird.id)) return true
    return options.sureEarly === true && why.needs === 'sureEarly'
  })
}

/** Whether a claim was made a moment ago and nothing has been done under it. */
export const isUntouched = (held: Held, nowMs: InstantMs): boolean =>
  held.answered.length === 0 &&
  held.startIs === 'estimated' &&
  nowMs - held.claimedAtMs < untouchedMs

const byNobodyLooked = (nest: Nest, birds: readonly Bird[]): readonly number[] =>
  nest.doubts
    .filter((doubt) =>
      birds.some((bird) => doubt.birds.includes(bird.id) && !doubt.looked.includes(bird.id)),
    )
    .map((doubt) => doubt.no)

/**
 * Why this person cannot have this nest now, the first reason in a fixed order; null when they can.
 * Says nothing of rights: who may ask at all is looked at before.
 */
export function whyNotClaim(
  board: Board,
  person: PersonId,
  nestId: NestId,
  nowMs: InstantMs,
  options: ClaimOptions = {},
): Rejection | null {
  const actor = board.people[person]
  if (actor?.shift !== 'on') return { code: actor?.shift === 'break' ? 'OnBreak' : 'NotOnShift' }
  const nest = board.nests[nestId]
  if (!nest) return { code: 'NestUnknown' }
  const held = heldBy(nest)
  if (held && held.person !== person) {
    return { code: 'NestTaken', person: held.person, sinceMs: held.claimedAtMs }
  }
  if (held) return null
  const birds = birdsToClaim(board, nestId, person, nowMs, options)
  if (birds.length === 0) return nothingReady(board, nestId, person, nowMs)
  const other = claimOf(board, person)
  if (other && !isUntouched(other.held, nowMs)) return { code: 'FinishFirst', nest: other.nest.id }
  const mine = nest.doubts.find((doubt) => doubt.owner === person)
  if (mine) return { code: 'AnswerFirst', claimNo: mine.no }
  const unseen = byNobodyLooked(nest, birds).filter((no) => !options.seenDoubts?.includes(no))
  return unseen.length > 0 ? { code: 'InDoubt', doubts: unseen } : null
}

function nothingReady(board: Board, nest: NestId, person: PersonId, nowMs: InstantMs): Rejection {
  const birds = birdsOf(board, nest).flatMap((bird) => {
    const why = whyNotFeed(board, bird, person, nowMs)
    return why ? [{ bird: bird.id, why }] : []
  })
  return { code: 'NothingReady', birds }
}

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

export const evolveEnded = (board: Board, event: EventOf<'ClaimEnded'>): Board =>
  withNest(board, event.nest, (nest) => {
    if (nest.hands.type !== 'held' || nest.hands.claimNo !== event.claimNo) return nest
    const { claimNo, person } = nest.hands
    const lastEnd = { claimNo, person, how: event.how, atMs: event.atMs }
    return { ...nest, hands: { type: 'free' }, lastEnd }
  })
