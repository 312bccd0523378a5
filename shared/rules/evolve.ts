// One fact folded into the board. Total and plain: it copies what was decided and looks nothing up but
// the board itself, so a board is the same on every machine that folds the same records.

import { unreachable } from '../base/control.ts'
import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { withNest, withPerson } from '../board/change.ts'
import { daysKept, setAsideMax } from '../board/constants.ts'
import type { EventOf, RoomEvent } from '../board/events.ts'
import type { DayWindow } from '../board/parts.ts'
import type { Board } from '../board/state.ts'
import { evolveLooked } from './answeringDoubts.ts'
import { evolveNestOpened, evolveReleased, evolveSeen, evolveWeighed } from './broods.ts'
import {
  evolveClaimed,
  evolveEnded,
  evolveLease,
  evolveStarted,
  evolveStop,
  evolveStruck,
} from './claiming.ts'
import { evolveRoundMoved } from './correcting.ts'
import { evolveFound, evolveShort } from './countingBack.ts'
import { evolveDoubtEnded, evolveDoubtRaised, evolveDoubtShrunk } from './doubts.ts'
import { nestDueAtMs } from './due.ts'
import { evolveIncubator, evolvePlan } from './equipment.ts'
import { evolveHoldLifted, evolveHoldSet } from './holds.ts'
import { evolveFluids, evolveRead } from './measures.ts'
import { evolveMentor } from './mentors.ts'
import { evolveBirdMoved, evolveNestMoved } from './moving.ts'
import { evolveLeadTold, evolveNoticeSeen } from './notices.ts'
import {
  evolveOfferEnded,
  evolveOfferMade,
  isOfLateness,
  withFreshLateness,
  withFreshPerson,
} from './offers.ts'
import { evolvePresence } from './presence.ts'
import {
  evolveRequestDeclined,
  evolveRequestOfNobody,
  evolveRequestRaised,
  evolveRequestResolved,
  evolveRequestTaken,
} from './requests.ts'
import { evolvePersonAdded, evolveRemoved, evolveShift } from './roster.ts'
import { evolveCorrected, evolveRecorded, evolveTakenBack } from './rounds.ts'
import { withTally } from './shiftTally.ts'

function evolveFounded(board: Board, event: EventOf<'RoomFounded'>): Board {
  const { type: _type, v: _v, room: id, day, ...rest } = event
  return { ...board, room: { ...board.room, id, ...rest }, days: [day] }
}

const opened = (board: Board, atMs: InstantMs): Board => ({
  ...board,
  room: { ...board.room, openedAtMs: atMs },
})

const withDay = (board: Board, day: DayWindow): Board => ({
  ...Object.keys(board.nests).reduce((next, id) => withFreshLateness(next, id as NestId), board),
  room: { ...board.room, isClosed: false },
  days: [...board.days, day].slice(-daysKept),
})

/** The civil clock was set: the day it falls in is read anew, the days before it stand as written. */
const withCivilOffset = (board: Board, event: EventOf<'CivilOffsetChanged'>): Board => ({
  ...board,
  room: { ...board.room, civilOffsetMs: event.offsetMs, isClosed: false },
  days: [...board.days.slice(0, -1), event.day],
})

const withSetAside = (board: Board, event: EventOf<'ReportSetAside'>): Board => ({
  ...board,
  setAside: [
    ...board.setAside,
    {
      by: event.by,
      atMs: event.atMs,
      why: event.why,
      nest: event.nest ?? null,
      what: String(event.body.type),
    },
  ].slice(-setAsideMax),
})

/** The person whose doing an event is; null where it is nobody's, or only a server's word. */
function doerOf(event: RoomEvent): { readonly person: PersonId; readonly atMs: InstantMs } | null {
  switch (event.type) {
    case 'NestClaimed':
    case 'ShiftBegun':
    case 'BreakBegun':
    case 'BreakEnded':
    case 'RequestTaken':
    case 'RequestDeclined':
      return event
    case 'OfferEnded':
      return event.how === 'declined' ? event : null
    case 'RoundRecorded':
      return event.standing === 'current' ? event : null
    default:
      return 'by' in event && event.by && 'atMs' in event
        ? { person: event.by, atMs: event.atMs }
        : null
  }
}

/** Whoever has just done something is at work: no offer counts against them. */
function withDoer(board: Board, event: RoomEvent): Board {
  const doer = doerOf(event)
  return doer === null
    ? board
    : withPerson(board, doer.person, (person) => ({
        ...person,
        actedAtMs: Math.max(person.actedAtMs, doer.atMs),
        unanswered: 0,
      }))
}

/** What an event leaves beside its own page: a request nobody could take, a person free once more. */
const withRequestTold = (board: Board, event: EventOf<'LeadTold'>): Board => {
  const told = evolveLeadTold(board, event)
  if (event.request) return evolveRequestOfNobody(told, event.request)
  return isOfLateness(event.why) && event.nest
    ? withNest(told, event.nest, (nest) => ({ ...nest, isLeadTold: true }))
    : told
}

function withResolved(board: Board, event: EventOf<'RequestResolved'>): Board {
  const taker = board.requests[event.request]?.taken?.person
  const resolved = evolveRequestResolved(board, event)
  return taker ? withFreshPerson(resolved, taker) : resolved
}

/** A held nest is late no more; one bird of it held, and the others still are. */
const withHold = (board: Board, event: EventOf<'HoldSet'>): Board => {
  const held = evolveHoldSet(board, event)
  return event.bird ? held : withFreshLateness(held, event.nest)
}

/** Crops seen full end a nest's lateness as a feed does, and the next one is another. */
function withLooked(board: Board, event: EventOf<'BirdsLooked'>): Board {
  const looked = evolveLooked(board, event)
  const dueAtMs = nestDueAtMs(looked, event.nest)
  const isLate = dueAtMs !== null && dueAtMs <= event.atMs
  return isLate ? looked : withFreshLateness(looked, event.nest)
}

/** Whoever puts a call back has nothing in hand any more; a plain no frees nobody. */
function withPutBack(board: Board, event: EventOf<'RequestDeclined'>): Board {
  const isTaker = board.requests[event.request]?.taken?.person === event.person
  const declined = evolveRequestDeclined(board, event)
  return isTaker ? withFreshPerson(declined, event.person) : declined
}

export const evolve = (board: Board, event: RoomEvent): Board =>
  withTally(board, withDoer(folded(board, event), event), event)

function folded(board: Board, event: RoomEvent): Board {
  switch (event.type) {
    case 'RoomFounded':
      return evolveFounded(board, event)
    case 'RoomOpened':
      return opened(board, event.atMs)
    case 'DayOpened':
      return withDay(board, event.day)
    case 'DayClosed':
      return { ...board, room: { ...board.room, isClosed: true } }
    case 'MentorSet':
      return evolveMentor(board, event)
    case 'RoomSet':
      return { ...board, room: { ...board.room, usesStartTap: event.usesStartTap } }
    case 'PersonUnreachable':
      return evolvePresence(board, event)
    case 'PersonReachable':
      return withFreshPerson(evolvePresence(board, event), event.person)
    case 'LeadTold':
      return withRequestTold(board, event)
    case 'NoticeSeen':
      return evolveNoticeSeen(board, event)
    case 'NestMoved':
      return evolveNestMoved(board, event)
    case 'BirdMoved':
      return evolveBirdMoved(board, event)
    case 'BirdsShort':
      return evolveShort(board, event)
    case 'BirdsFound':
      return evolveFound(board, event)
    case 'RequestRaised':
      return evolveRequestRaised(board, event)
    case 'RequestTaken':
      return evolveRequestTaken(board, event)
    case 'RequestDeclined':
      return withPutBack(board, event)
    case 'RequestResolved':
      return withResolved(board, event)
    case 'OfferMade':
      return evolveOfferMade(board, event)
    case 'OfferEnded':
      return evolveOfferEnded(board, event)
    case 'RoundMoved':
      return evolveRoundMoved(board, event)
    case 'CivilOffsetChanged':
      return withCivilOffset(board, event)
    case 'PersonAdded':
      return evolvePersonAdded(board, event)
    case 'SignOffsSet':
      return withPerson(board, event.person, (person) => ({ ...person, signOffs: event.signOffs }))
    case 'PersonRemoved':
      return evolveRemoved(board, event)
    case 'IncubatorAdded':
      return evolveIncubator(board, event)
    case 'PlanSet':
      return evolvePlan(board, event)
    case 'ShiftBegun':
    case 'ShiftEnded':
    case 'BreakBegun':
    case 'BreakEnded':
      return evolveShift(board, event)
    case 'NestOpened':
      return evolveNestOpened(board, event)
    case 'ArrivalReleased':
      return evolveReleased(board, event)
    case 'HoldSet':
      return withHold(board, event)
    case 'HoldLifted':
      return evolveHoldLifted(board, event)
    case 'BirdSeen':
      return evolveSeen(board, event)
    case 'Weighed':
      return evolveWeighed(board, event)
    case 'IncubatorRead':
      return evolveRead(board, event)
    case 'FluidsGiven':
      return evolveFluids(board, event)
    case 'NestClaimed':
      return evolveClaimed(board, event)
    case 'LeaseExtended':
      return evolveLease(board, event)
    case 'FeedStarted':
      return evolveStarted(board, event)
    case 'RoundRecorded':
      return evolveRecorded(board, event)
    case 'RoundCorrected':
      return evolveCorrected(board, event)
    case 'RoundTakenBack':
      return evolveTakenBack(board, event)
    case 'ClaimBirdsStruck':
      return evolveStruck(board, event)
    case 'ClaimEnded':
      return evolveEnded(board, event)
    case 'StopCalled':
      return evolveStop(board, event)
    case 'DoubtRaised':
      return evolveDoubtRaised(board, event)
    case 'DoubtShrunk':
      return evolveDoubtShrunk(board, event)
    case 'DoubtEnded':
      return evolveDoubtEnded(board, event)
    case 'BirdsLooked':
      return withLooked(board, event)
    case 'ReportSetAside':
      return withSetAside(board, event)
    default:
      return unreachable(event)
  }
}

export const foldEvents = (board: Board, events: readonly RoomEvent[]): Board =>
  events.reduce(evolve, board)
