// Somebody trained is called: for a bird that refused two feeds running, for an arrival whose droppings
// do not come, or by hand. It reaches everybody who may answer, one takes it, and it stays until it is
// resolved. The sum of fluids and the ladder of those who are fetched next are not here.

import type { InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import { birdsOf, withBird, withCounter, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import {
  noDroppingsAfterMs,
  type RequestKind,
  refusalsRunning,
  requestAfterMs,
  requestsMax,
} from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import { hasRight } from '../board/rights.ts'
import type { Bird, Board, Feed, Nest, Request, Round } from '../board/state.ts'
import type { Context } from './context.ts'
import {
  type Decision,
  type Due,
  type Events,
  happened,
  nothingNew,
  refuse,
  setAside,
} from './decision.ts'
import { planOf } from './due.ts'
import { leadTold } from './notices.ts'
import { openRequests, requestOn } from './openRequests.ts'

/**
 * Everybody this request is put to, until one has taken it: for fluids whoever is on shift and signed
 * off for them; for help the leads too, and where there is none of these, everybody else on shift.
 */
export function askedOf(board: Board, request: Request): readonly PersonId[] {
  const here = Object.values(board.people).filter(
    (person) =>
      person.shift === 'on' &&
      !person.isRemoved &&
      person.id !== request.by &&
      !request.declined.includes(person.id),
  )
  const trained = here.filter((person) => person.signOffs.includes('fluids'))
  if (request.kind !== 'help') return trained.map((person) => person.id)
  const first = here.filter((person) => trained.includes(person) || hasRight(person, 'lead'))
  return (first.length > 0 ? first : here).map((person) => person.id)
}

type Call = {
  readonly kind: RequestKind
  readonly why: Request['why']
  readonly nest: NestId | null
  readonly bird?: Bird['id']
  readonly by?: PersonId
  readonly visit?: number
}

function raisedRequest(board: Board, call: Call, nowMs: InstantMs): EventOf<'RequestRaised'> {
  return {
    ...{ type: 'RequestRaised', v: 1, kind: call.kind, why: call.why, atMs: nowMs },
    request: `r${board.counters.request + 1}` as RequestId,
    nest: call.nest,
    bird: call.bird ?? null,
    by: call.by ?? null,
    ...(call.visit === undefined ? {} : { visit: call.visit }),
  }
}

/** The refusals at the end of a bird's feeds; visits at which it was not fed count as neither. */
export function refusalsAtEnd(bird: Bird): readonly Feed[] {
  const offered = bird.feeds.filter((feed) => feed.outcome !== 'notFed')
  const lastEaten = offered.findLastIndex((feed) => feed.outcome !== 'refused')
  return offered.slice(lastEaten + 1)
}

const recordedAtMs = (nest: Nest | undefined, feed: Feed): InstantMs =>
  nest?.rounds.find((round) => round.no === feed.no)?.recordedAtMs ?? feed.startedAtMs

/** Two refusals running by a bird that gapes for its food: a tubed bird does not choose. */
function refusedTwice(board: Board): readonly Due[] {
  return Object.values(board.birds).flatMap((bird) => {
    const refusals = refusalsAtEnd(bird)
    const last = refusals.at(-1)
    if (!last || refusals.length < refusalsRunning || last.no <= bird.fetchedForNo) return []
    if (planOf(board, bird)?.technique === 'cropTube' || requestOn(board, bird)) return []
    const call = { kind: 'fluids', why: 'refusedTwice', nest: bird.nest, bird: bird.id } as const
    const atMs = recordedAtMs(board.nests[bird.nest], last) + requestAfterMs
    const visit = last.no
    return [{ atMs, events: (nowMs) => [raisedRequest(board, { ...call, visit }, nowMs)] }]
  })
}

const isRefusal = (round: Round): boolean => round.notKnownWhich?.outcome === 'refused'

/** The same of a brood without bands: each of its last two visits had a bird that refused. */
function refusedUnmarked(board: Board): readonly Due[] {
  return Object.values(board.nests).flatMap((nest) => {
    const visits = nest.rounds.filter((round) => !round.isTakenBack)
    const lastTwo = visits.slice(-refusalsRunning)
    const last = lastTwo.at(-1)
    if (!last || lastTwo.length < refusalsRunning || !lastTwo.every(isRefusal)) return []
    if (last.no <= nest.fetchedFor.visitNo || hasOpen(board, nest.id, 'fluids')) return []
    const call = { kind: 'fluids', why: 'refusedTwice', nest: nest.id, visit: last.no } as const
    const atMs = last.recordedAtMs + requestAfterMs
    return [{ atMs, events: (nowMs) => [raisedRequest(board, call, nowMs)] }]
  })
}

const hasOpen = (board: Board, nest: NestId, kind: RequestKind): boolean =>
  openRequests(board).some(
    (request) => request.nest === nest && request.kind === kind && !request.bird,
  )

/** An hour after an arrival's fluids without droppings: a person decides, and is asked once. */
function withoutDroppings(board: Board): readonly Due[] {
  return Object.values(board.nests).flatMap((nest) => {
    const times = birdsOf(board, nest.id).flatMap((bird) => {
      const isWaiting = bird.standing.type === 'settling' && bird.fluidsSinceMs > bird.droppingsAtMs
      return isWaiting && bird.fluidsSinceMs > nest.fetchedFor.fluidsAtMs
        ? [bird.fluidsSinceMs]
        : []
    })
    if (times.length === 0 || hasOpen(board, nest.id, 'noDroppings')) return []
    const call = { kind: 'noDroppings', why: 'noDroppings', nest: nest.id } as const
    const atMs = Math.min(...times) + noDroppingsAfterMs
    return [{ atMs, events: (nowMs) => [raisedRequest(board, call, nowMs)] }]
  })
}

/** A call that is put to nobody: the lead is told, once. */
const askedOfNobody = (board: Board): readonly Due[] =>
  openRequests(board).flatMap((request) => {
    const isPut = request.taken !== null || request.isLeadTold
    if (isPut || askedOf(board, request).length > 0) return []
    const news = { why: 'nobodyForRequest', request: request.id } as const
    const about = request.nest ? { ...news, nest: request.nest } : news
    return [{ atMs: request.raisedAtMs, events: (nowMs) => leadTold(board, about, nowMs) }]
  })

/** Every call the board makes by itself, and from when. */
export function requestsDue(board: Board): readonly Due[] {
  const isFull = Object.keys(board.requests).length >= requestsMax
  const raised = isFull
    ? []
    : [...refusedTwice(board), ...refusedUnmarked(board), ...withoutDroppings(board)]
  return [...raised, ...askedOfNobody(board)]
}

export function decideCallHelp(
  board: Board,
  command: CommandOf<'CallHelp'>,
  context: Context,
): Decision {
  const nest = command.nest ? (board.nests[command.nest]?.id ?? null) : null
  const isCalled = openRequests(board).some(
    (one) => one.kind === 'help' && one.by === context.by && one.nest === nest,
  )
  if (isCalled) return nothingNew
  if (Object.keys(board.requests).length >= requestsMax) {
    return happened(setAside(command, context, 'boardFull'))
  }
  const call = { kind: 'help', why: 'byHand', nest, by: context.by } as const
  const raised = raisedRequest(board, call, context.nowMs)
  return happened(context.private ? { ...raised, note: context.private } : raised)
}

export function decideTakeRequest(
  board: Board,
  command: CommandOf<'TakeRequest'>,
  context: Context,
): Decision {
  const request = board.requests[command.request]
  const person = board.people[context.by]
  if (!request || !person) return refuse({ code: 'RequestUnknown' })
  const { taken } = request
  if (taken?.person === context.by) return nothingNew
  if (taken) return refuse({ code: 'RequestTaken', person: taken.person, sinceMs: taken.atMs })
  const needs = request.kind === 'help' ? 'onShift' : 'fluids'
  if (!hasRight(person, needs)) return refuse({ code: 'NotAllowed', needs })
  const at = { request: request.id, person: person.id, atMs: context.nowMs }
  return happened({ type: 'RequestTaken', v: 1, ...at })
}

export function decideDeclineRequest(
  board: Board,
  command: CommandOf<'DeclineRequest'>,
  context: Context,
): Decision {
  const request = board.requests[command.request]
  if (!request) return refuse({ code: 'RequestUnknown' })
  if (request.declined.includes(context.by)) return nothingNew
  return happened(declined(request, context.by, context.nowMs))
}

const declined = (
  request: Request,
  person: PersonId,
  atMs: InstantMs,
): EventOf<'RequestDeclined'> => {
  return { type: 'RequestDeclined', v: 1, request: request.id, person, atMs }
}

/** Somebody who goes for good puts back what they had taken. */
export const requestsPutBack = (board: Board, person: PersonId, nowMs: InstantMs): Events =>
  openRequests(board)
    .filter((request) => request.taken?.person === person)
    .map((request) => declined(request, person, nowMs))

export function decideResolveRequest(
  board: Board,
  command: CommandOf<'ResolveRequest'>,
  context: Context,
): Decision {
  const request = board.requests[command.request]
  const person = board.people[context.by]
  if (!request || !person) return refuse({ code: 'RequestUnknown' })
  const isMine = request.taken?.person === context.by || request.by === context.by
  if (!isMine && !hasRight(person, 'lead')) return refuse({ code: 'NotAllowed', needs: 'lead' })
  return happened({
    ...{ type: 'RequestResolved', v: 1, request: request.id, by: context.by },
    atMs: context.nowMs,
    ...(context.private ? { note: context.private } : {}),
  })
}

export function evolveRequestRaised(board: Board, event: EventOf<'RequestRaised'>): Board {
  const request: Request = {
    ...{ id: event.request, kind: event.kind, why: event.why },
    ...{ nest: event.nest, bird: event.bird, by: event.by },
    ...{ raisedAtMs: event.atMs, noteId: event.note?.id ?? null },
    ...{ taken: null, declined: [], isLeadTold: false },
  }
  const added = { ...board, requests: { ...board.requests, [request.id]: request } }
  const counted = withCounter(added, 'request', Number(request.id.slice(1)))
  return fetched(counted, event)
}

/** Remembers for what somebody was fetched, so that the same refusals, or fluids, fetch nobody twice. */
function fetched(board: Board, event: EventOf<'RequestRaised'>): Board {
  const { bird, nest, visit, atMs } = event
  if (bird) {
    return withBird(board, bird, (now) => ({ ...now, fetchedForNo: visit ?? now.fetchedForNo }))
  }
  if (!nest || event.kind === 'help') return board
  return withNest(board, nest, (now) => ({
    ...now,
    fetchedFor: {
      visitNo: visit ?? now.fetchedFor.visitNo,
      fluidsAtMs: event.kind === 'noDroppings' ? atMs : now.fetchedFor.fluidsAtMs,
    },
  }))
}

const withRequest = (board: Board, id: RequestId, change: (now: Request) => Request): Board => {
  const request = board.requests[id]
  return request ? { ...board, requests: { ...board.requests, [id]: change(request) } } : board
}

export const evolveRequestTaken = (board: Board, event: EventOf<'RequestTaken'>): Board =>
  withRequest(board, event.request, (now) => ({
    ...now,
    taken: { person: event.person, atMs: event.atMs },
    declined: now.declined.filter((person) => person !== event.person),
  }))

export const evolveRequestDeclined = (board: Board, event: EventOf<'RequestDeclined'>): Board =>
  withRequest(board, event.request, (now) => ({
    ...now,
    taken: now.taken?.person === event.person ? null : now.taken,
    declined: [...new Set([...now.declined, event.person])],
  }))

export const evolveRequestOfNobody = (board: Board, id: RequestId): Board =>
  withRequest(board, id, (now) => ({ ...now, isLeadTold: true }))

export function evolveRequestResolved(board: Board, event: EventOf<'RequestResolved'>): Board {
  const { [event.request]: _gone, ...requests } = board.requests
  return { ...board, requests }
}
