// What a visit leaves on the board: a round on the nest and one feed with each bird, under one number.
// Making the event and folding it stand here; who may say what, and what else it ends, does not.

import type { BirdId, InstantMs, PersonId } from '../base/values.ts'
import { withBird, withCounter, withNest } from '../board/change.ts'
import { feedsPerBirdMax, roundsPerNestMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Answer, NotKnownWhich } from '../board/parts.ts'
import type { Bird, Board, Feed, Nest, Round } from '../board/state.ts'
import { claimEnded } from './claiming.ts'
import type { Context } from './context.ts'
import { type Events, heldBy } from './decision.ts'
import { intervalMs, isFeed, isHeld, planOf } from './due.ts'
import { isMentorAway } from './mentors.ts'
import { withFreshLateness } from './offers.ts'

export type Visit = {
  readonly no: number
  readonly standing: Round['standing']
  readonly startedAtMs: InstantMs
  readonly isSaid: boolean
  readonly answers: readonly Answer[]
  readonly back?: number | undefined
  readonly door?: 'shut' | 'notSeen' | undefined
  readonly notKnownWhich?: NotKnownWhich | undefined
  readonly isTooQuick?: boolean
  /** Who fed, where it is somebody else who says so. */
  readonly person?: PersonId
}

/** The record of one visit, with the interval in force for each bird and whatever is odd about it. */
export function recorded(
  board: Board,
  nest: Nest,
  context: Context,
  visit: Visit,
): EventOf<'RoundRecorded'> {
  const extraAfter = heldBy(nest)?.claimNo === visit.no ? heldBy(nest)?.extraAfter : null
  return {
    type: 'RoundRecorded',
    v: 1,
    nest: nest.id,
    no: visit.no,
    person: visit.person ?? context.by,
    atMs: context.nowMs,
    startedAtMs: visit.startedAtMs,
    standing: visit.standing,
    isSaid: visit.isSaid,
    answers: visit.answers.map((answer) => {
      const bird = board.birds[answer.bird]
      return { ...answer, intervalMs: bird ? intervalMs(board, bird) : 0 }
    }),
    ...(visit.back === undefined ? {} : { back: visit.back }),
    ...(visit.door === undefined ? {} : { door: visit.door }),
    marks: marksOf(board, nest, context, visit),
    ...(extraAfter ? { extraAfter } : {}),
    ...(visit.notKnownWhich ? { notKnownWhich: visit.notKnownWhich } : {}),
  }
}

function marksOf(
  board: Board,
  nest: Nest,
  context: Context,
  visit: Visit,
): EventOf<'RoundRecorded'>['marks'] {
  const by = visit.person ?? context.by
  const person = board.people[by]
  const fed = visit.answers.filter((answer) => isFeed(answer.outcome))
  const birds = fed.flatMap((answer) => board.birds[answer.bird] ?? [])
  const isSignedOff = (bird: Bird) => {
    const technique = planOf(board, bird)?.technique
    return technique === undefined || (person?.signOffs.includes(technique) ?? false)
  }
  return [
    ...(person?.shift === 'off' ? (['notOnShift'] as const) : []),
    ...(birds.every(isSignedOff) ? [] : (['notSignedOff'] as const)),
    ...(birds.some((bird) => isHeld(nest, bird)) ? (['heldBird'] as const) : []),
    ...(birds.some((bird) => bird.standing.type === 'settling') ? (['settlingBird'] as const) : []),
    ...(context.isBounded ? (['timeBounded'] as const) : []),
    ...(visit.isTooQuick ? (['tooQuick'] as const) : []),
    ...(isMentorAway(board, by) ? (['mentorAway'] as const) : []),
  ]
}

/**
 * A visit recorded outside the claim now in hand. If somebody holds the nest, the birds just fed are
 * taken out of their hands and they are told to stop: this is what keeps a late record from becoming
 * a second feed.
 */
export function lateRound(board: Board, nest: Nest, context: Context, visit: Visit): Events {
  return [
    recorded(board, nest, context, visit),
    ...struckFromClaim(nest, context.nowMs, justFed(board, visit, context.nowMs)),
  ]
}

/** Birds this visit fed so lately that they must not be fed again: under three quarters of T. */
function justFed(board: Board, visit: Visit, nowMs: InstantMs): readonly BirdId[] {
  return visit.answers
    .filter((answer) => isFeed(answer.outcome))
    .map((answer) => answer.bird)
    .filter((id) => {
      const bird = board.birds[id]
      return bird !== undefined && nowMs - visit.startedAtMs < 0.75 * intervalMs(board, bird)
    })
}

function struckFromClaim(nest: Nest, nowMs: InstantMs, fed: readonly BirdId[]): Events {
  const held = heldBy(nest)
  const struck = held?.birds.filter((bird) => fed.includes(bird) && !held.answered.includes(bird))
  if (!held || !struck || struck.length === 0) return []
  const stop = { type: 'StopCalled', v: 1, nest: nest.id, claimNo: held.claimNo } as const
  return [
    { type: 'ClaimBirdsStruck', v: 1, nest: nest.id, claimNo: held.claimNo, birds: struck },
    { ...stop, why: 'fedByOther' },
    ...endIfNothingLeft(nest, struck, nowMs),
  ]
}

/** Ends the claim when these birds were the last it had to answer for. */
export function endIfNothingLeft(nest: Nest, struck: readonly BirdId[], nowMs: InstantMs): Events {
  const held = heldBy(nest)
  if (!held) return []
  const left = held.birds.filter((bird) => !struck.includes(bird))
  if (left.some((bird) => !held.answered.includes(bird))) return []
  const how = held.answered.length > 0 ? 'fed' : 'calledOff'
  return [claimEnded(nest.id, held.claimNo, how, nowMs)]
}

/** A time somebody names, held between the brood's arrival and now. */
export const boundedSaidMs = (nest: Nest, saidAtMs: InstantMs, nowMs: InstantMs): InstantMs =>
  Math.min(Math.max(saidAtMs, nest.openedAtMs), nowMs)

const byStart = (
  a: { startedAtMs: number; no: number },
  b: { startedAtMs: number; no: number },
): number => a.startedAtMs - b.startedAtMs || a.no - b.no

/** The bird with this feed on its list; what no longer fits is remembered by its latest times only. */
function withFeed(bird: Bird, feed: Feed): Bird {
  const feeds = [...bird.feeds.filter((other) => other.no !== feed.no), feed].sort(byStart)
  const gone = feeds.slice(0, Math.max(0, feeds.length - feedsPerBirdMax))
  const before = gone.reduce(
    (kept, old) => ({
      fedAtMs: isFeed(old.outcome) ? Math.max(kept.fedAtMs, old.startedAtMs) : kept.fedAtMs,
      refusedAtMs:
        old.outcome === 'refused' ? Math.max(kept.refusedAtMs, old.startedAtMs) : kept.refusedAtMs,
      notFedAtMs:
        old.outcome === 'notFed' ? Math.max(kept.notFedAtMs, old.startedAtMs) : kept.notFedAtMs,
    }),
    bird.before,
  )
  return { ...bird, feeds: feeds.slice(gone.length), before }
}

export function evolveRecorded(board: Board, event: EventOf<'RoundRecorded'>): Board {
  const fed = event.answers.reduce(
    (changed, answer) =>
      withBird(changed, answer.bird, (bird) =>
        withFeed(bird, {
          no: event.no,
          startedAtMs: event.startedAtMs,
          outcome: answer.outcome,
          given: answer.given ?? null,
          intervalMs: answer.intervalMs,
          isSaid: event.isSaid,
          extraAfter: event.extraAfter ?? null,
          isUnsure: event.notKnownWhich !== undefined && isFeed(answer.outcome),
        }),
      ),
    board,
  )
  const kept = withNest(fed, event.nest, (nest) => answeredIn(withRound(nest, event), event))
  return withCounter(withFreshLateness(kept, event.nest), 'visit', event.no)
}

function withRound(nest: Nest, event: EventOf<'RoundRecorded'>): Nest {
  const before = nest.rounds.find((round) => round.no === event.no)
  const birds = event.answers.map((answer) => answer.bird)
  const round: Round = {
    no: event.no,
    person: event.person,
    startedAtMs: event.startedAtMs,
    recordedAtMs: event.atMs,
    standing: event.standing,
    isSaid: event.isSaid || (before?.isSaid ?? false),
    birds: [...new Set([...(before?.birds ?? []), ...birds])],
    back: event.back ?? before?.back ?? null,
    door: event.door ?? before?.door ?? null,
    marks: [...new Set([...(before?.marks ?? []), ...event.marks])],
    isTakenBack: false,
    movedTo: null,
    notKnownWhich: event.notKnownWhich ?? before?.notKnownWhich ?? null,
    corrections: before?.corrections ?? 0,
  }
  const rounds = [...nest.rounds.filter((other) => other.no !== event.no), round].sort(byStart)
  return { ...nest, rounds: rounds.slice(-roundsPerNestMax) }
}

function answeredIn(nest: Nest, event: EventOf<'RoundRecorded'>): Nest {
  if (nest.hands.type !== 'held' || nest.hands.claimNo !== event.no) return nest
  const birds = event.answers.map((answer) => answer.bird)
  const answered = [...new Set([...nest.hands.answered, ...birds])]
  return { ...nest, hands: { ...nest.hands, answered } }
}

export function evolveCorrected(board: Board, event: EventOf<'RoundCorrected'>): Board {
  const changed = event.answers.reduce(
    (next, answer) =>
      withBird(next, answer.bird, (bird) => ({
        ...bird,
        feeds: bird.feeds.map((feed) =>
          feed.no === event.no
            ? { ...feed, outcome: answer.outcome, given: answer.given ?? null, isUnsure: false }
            : feed,
        ),
      })),
    board,
  )
  const round = board.nests[event.nest]?.rounds.find((other) => other.no === event.no)
  const isNowKnown = round !== undefined && isToldWhich(round, event.answers)
  return withNest(isNowKnown ? sureFeeds(changed, round) : changed, event.nest, (nest) => ({
    ...nest,
    rounds: nest.rounds.map((other) =>
      other.no === event.no
        ? {
            ...other,
            corrections: other.corrections + 1,
            notKnownWhich: isNowKnown ? null : other.notKnownWhich,
          }
        : other,
    ),
  }))
}

/** Whether these answers say which birds did otherwise, where that was not known. */
function isToldWhich({ birds, notKnownWhich }: Round, answers: readonly Answer[]): boolean {
  if (!notKnownWhich) return false
  const named = answers.filter((answer) => answer.outcome === notKnownWhich.outcome).length
  const isEach = birds.every((bird) => answers.some((answer) => answer.bird === bird))
  return isEach || named >= notKnownWhich.count
}

const sureFeeds = (board: Board, { birds, no }: Round): Board =>
  birds.reduce(
    (next, bird) =>
      withBird(next, bird, (now) => ({
        ...now,
        feeds: now.feeds.map((feed) => (feed.no === no ? { ...feed, isUnsure: false } : feed)),
      })),
    board,
  )

export function evolveTakenBack(board: Board, event: EventOf<'RoundTakenBack'>): Board {
  const round = board.nests[event.nest]?.rounds.find((other) => other.no === event.no)
  const changed = (round?.birds ?? []).reduce(
    (next, bird) =>
      withBird(next, bird, (now) => ({
        ...now,
        feeds: now.feeds.filter((feed) => feed.no !== event.no),
      })),
    board,
  )
  return withNest(changed, event.nest, (nest) => ({
    ...nest,
    hands:
      nest.hands.type === 'held' && nest.hands.claimNo === event.no
        ? { ...nest.hands, answered: [] }
        : nest.hands,
    rounds: nest.rounds.map((round) =>
      round.no === event.no ? { ...round, isTakenBack: true } : round,
    ),
  }))
}
