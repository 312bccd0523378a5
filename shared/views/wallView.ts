// Everything the wall shows: a lane per incubator with its nests in the order they matter, what must be
// acted on, what the room counts, and who is here. The wall lays this out and knows nothing else.

import type { IncubatorId, InstantMs, PersonId } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { today } from '../rules/feedingHours.ts'
import { isFree } from '../rules/offers.ts'
import { type Hours, hoursAt } from './hours.ts'
import { byName, nameOf, type PublicNames } from './names.ts'
import { byLabel, inWaitingOrder } from './nestOrder.ts'
import type { NestState } from './nestState.ts'
import { alertsOf, type WallAlert } from './wallAlerts.ts'
import { type WallNest, wallNest } from './wallNest.ts'
import { type Pace, paceOf } from './wallPace.ts'

export type Lane = {
  readonly incubator: IncubatorId
  readonly label: string
  readonly nests: readonly WallNest[]
}

export type Away = {
  readonly person: PersonId
  readonly name: string | null
  readonly backAtMs: InstantMs | null
  /** On shift, but no screen of theirs has been heard for a while. */
  readonly isUnheard: boolean
}

export type WallView = {
  readonly title: string
  readonly hours: Hours
  /** When the room opens again after tonight, or after now where it is closed; null round the clock. */
  readonly opensAgainAtMs: InstantMs | null
  readonly counts: {
    readonly late: number
    readonly due: number
    readonly here: number
    readonly free: number
    readonly doubts: number
  }
  readonly away: readonly Away[]
  readonly pace: Pace
  readonly alerts: readonly WallAlert[]
  readonly lanes: readonly Lane[]
}

function lanesOf(board: Board, nests: readonly WallNest[]): readonly Lane[] {
  return Object.values(board.incubators)
    .map(({ id, label }) => ({
      incubator: id,
      label,
      nests: nests.filter((nest) => nest.incubator === id).sort(inWaitingOrder),
    }))
    .sort(byLabel)
}

function opensAgainAtMs(board: Board, hours: Hours): InstantMs | null {
  if (hours.type === 'closed') return hours.opensAtMs
  return hours.type === 'open' ? today(board).nextOpensAtMs : null
}

function awayOf(board: Board, names: PublicNames): readonly Away[] {
  return Object.values(board.people)
    .filter(({ shift, unreachableSinceMs, isRemoved }) => {
      return !isRemoved && (shift === 'break' || (shift === 'on' && unreachableSinceMs !== null))
    })
    .map(({ id, shift, backAtMs }) => ({
      person: id,
      name: nameOf(board, names, id),
      backAtMs: shift === 'break' ? backAtMs : null,
      isUnheard: shift === 'on',
    }))
    .sort(byName)
}

/** The wall at `nowMs` on the room's clock. */
export function wallView(board: Board, names: PublicNames, nowMs: InstantMs): WallView {
  const nests = Object.values(board.nests).map((nest) => wallNest(board, names, { nest, nowMs }))
  const inState = (type: NestState['type']) => nests.filter(({ state }) => state.type === type)
  const here = Object.values(board.people).filter(
    (person) => person.shift === 'on' && !person.isRemoved,
  ).length
  const hours = hoursAt(board, nowMs)
  return {
    title: board.room.title,
    hours,
    opensAgainAtMs: opensAgainAtMs(board, hours),
    counts: {
      late: inState('late').length,
      due: inState('due').length,
      here,
      free: Object.values(board.people).filter(({ id }) => isFree(board, id)).length,
      doubts: nests.filter(({ doubt }) => doubt !== null).length,
    },
    away: awayOf(board, names),
    pace: paceOf(board, nests, { hours, nowMs }),
    alerts: alertsOf(board, names, nests),
    lanes: lanesOf(board, nests),
  }
}
