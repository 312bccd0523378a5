// Whether a person may have a nest now, and the first reason why not, in a fixed order. The server
// refuses by it and a button asks it before it is drawn, so the two can never disagree on a reason.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { untouchedMs } from '../board/constants.ts'
import type { Bird, Board, Held, Nest } from '../board/state.ts'
import { claimOf, heldBy } from './decision.ts'
import { birdReadyAtMs, intervalMs, isHeld, lastFedAtMs, ownDueAtMs, planOf } from './due.ts'
import { isMentorAway } from './mentors.ts'
import { requestOn } from './openRequests.ts'
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
  const request = requestOn(board, bird)
  if (request) return { type: 'requestOpen', request: request.id }
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
  const ownAtMs = ownDueAtMs(board, bird)
  if (readyAtMs === null || ownAtMs === null || readyAtMs <= nowMs) return null
  const isUnderHalf = ownAtMs - nowMs > intervalMs(board, bird) / 2
  return {
    type: 'tooSoon',
    readyAtMs,
    fedAtMs: lastFedAtMs(bird),
    needs: isUnderHalf ? 'extra' : 'sureEarly',
  }
}

/** The birds a claim would carry: those ready, and those early ones the person said they mean. */
export function birdsToClaim(
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
  if (isMentorAway(board, person)) return { code: 'MentorAway', mentor: actor.mentor }
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
