// One fact folded into the board. Total and plain: it copies what was decided and looks nothing up but
// the board itself, so a board is the same on every machine that folds the same records.

import { unreachable } from '../base/control.ts'
import type { InstantMs } from '../base/values.ts'
import { withPerson } from '../board/change.ts'
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
import { evolveDoubtEnded, evolveDoubtRaised, evolveDoubtShrunk } from './doubts.ts'
import { evolveIncubator, evolvePlan } from './equipment.ts'
import { evolveHoldLifted, evolveHoldSet } from './holds.ts'
import { evolveRead } from './measures.ts'
import { evolvePersonAdded, evolveRemoved, evolveShift } from './roster.ts'
import { evolveCorrected, evolveRecorded, evolveTakenBack } from './rounds.ts'

function evolveFounded(board: Board, event: EventOf<'RoomFounded'>): Board {
  const { type: _type, v: _v, room: id, day, ...rest } = event
  return { ...board, room: { ...board.room, id, ...rest }, days: [day] }
}

const opened = (board: Board, atMs: InstantMs): Board => ({
  ...board,
  room: { ...board.room, openedAtMs: atMs },
})

const withDay = (board: Board, day: DayWindow): Board => ({
  ...board,
  days: [...board.days, day].slice(-daysKept),
})

/** The civil clock was set: the day it falls in is read anew, the days before it stand as written. */
const withCivilOffset = (board: Board, event: EventOf<'CivilOffsetChanged'>): Board => ({
  ...board,
  room: { ...board.room, civilOffsetMs: event.offsetMs },
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

export function evolve(board: Board, event: RoomEvent): Board {
  switch (event.type) {
    case 'RoomFounded':
      return evolveFounded(board, event)
    case 'RoomOpened':
      return opened(board, event.atMs)
    case 'DayOpened':
      return withDay(board, event.day)
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
      return evolveHoldSet(board, event)
    case 'HoldLifted':
      return evolveHoldLifted(board, event)
    case 'BirdSeen':
      return evolveSeen(board, event)
    case 'Weighed':
      return evolveWeighed(board, event)
    case 'IncubatorRead':
      return evolveRead(board, event)
    case 'FluidsGiven':
      return board
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
      return evolveLooked(board, event)
    case 'ReportSetAside':
      return withSetAside(board, event)
    default:
      return unreachable(event)
  }
}

export const foldEvents = (board: Board, events: readonly RoomEvent[]): Board =>
  events.reduce(evolve, board)
