// A random walk through a small room: people of every role ask and report, late, twice, under old and
// made-up numbers; time passes, the server goes away and comes back, civil time moves. Takes the steps
// one after another as the room's own turns would, and hands each turn to whoever checks it.

import fc from 'fast-check'
import { hourMs, type InstantMs, type PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board, Held } from '../../shared/board/state.ts'
import type { Context } from '../../shared/rules/context.ts'
import { decide } from '../../shared/rules/decide.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { civilOffsetEvents, openingEvents } from '../../shared/rules/founding.ts'
import { presenceEvents } from '../../shared/rules/presence.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import { banded } from '../support/broodBuilder.ts'
import { letTimePass } from '../support/given.ts'
import { birdOf, clock, nest, nestOf, privateRef } from '../support/roomBuilder.ts'
import {
  atEightNoonFour,
  everyone,
  halfHourly,
  inc1,
  room,
  twentyMinutely,
  twoHourlyTube,
} from './smallRoom.ts'
import { aimOf, chosen, orderOf } from './walkOrders.ts'
import { type Step, step } from './walkSteps.ts'

export type Turn = {
  readonly step: Step
  readonly nowMs: InstantMs
  readonly before: Board
  /** What the clock alone brought, before anybody spoke. */
  readonly clockEvents: readonly RoomEvent[]
  /** The board somebody spoke to. */
  readonly spokenTo: Board
  readonly command: Command | null
  readonly by: PersonId
  readonly rejection: Rejection | null
  readonly events: readonly RoomEvent[]
  readonly after: Board
}

const mixed = nestOf(7)
/** Four broodmates on four different plans, and two in quarantine, beside the nests of the small room. */
export const walkRoom = room.and(
  nest(mixed, {
    label: 'X',
    incubator: inc1,
    birds: [twentyMinutely, halfHourly, twoHourlyTube, atEightNoonFour].map((plan, at) => ({
      id: birdOf(20 + at),
      plan,
    })),
  }),
  banded(nestOf(8), {
    ...{ label: 'Y', incubator: inc1, plan: halfHourly, isQuarantined: true },
    birds: [24, 25].map((n) => ({ id: birdOf(n), band: null })),
  }),
)

function contextAt(step: Step, by: PersonId, nowMs: InstantMs): Context {
  const notedAtMs = Math.max(0, nowMs - step.agoMs)
  const startedAtMs =
    step.startedAgoMs === null ? null : Math.max(0, Math.min(notedAtMs, nowMs - step.startedAgoMs))
  const named = step.kind === 'BoxArrived' ? { private: privateRef(1 + step.pick) } : {}
  return { by, nowMs, agoMs: step.agoMs, notedAtMs, startedAtMs, isBounded: false, ...named }
}

/** One step of the walk: time first, then what is said, as in the room's own turn. */
export function take(before: Board, step: Step, lastMs: InstantMs): Turn {
  const nowMs = lastMs + step.waitMs
  if (step.kind === 'outage') {
    const by = chosen(everyone, step.who)
    const events = openingEvents(before, nowMs)
    const opened = foldEvents(before, events)
    const passed = letTimePass(opened, nowMs)
    return {
      ...{ step, nowMs, before, spokenTo: opened, command: null, by, rejection: null },
      ...{ clockEvents: [], events: [...events, ...passed.events], after: passed.board },
    }
  }
  const { board: spokenTo, events: clockEvents } = letTimePass(before, nowMs)
  const { by, where } = aimOf(spokenTo, step)
  const order = orderOf(spokenTo, where, step, nowMs)
  const command = order === null ? null : ({ v: 1, ...order } as Command)
  const said = { step, nowMs, before, clockEvents, spokenTo, command, by }
  if (command === null) {
    const events =
      step.kind === 'presence'
        ? presenceEvents(spokenTo, by, step.pick % 3 > 0, nowMs)
        : civilOffsetEvents(spokenTo, ((step.pick % 5) - 2) * hourMs, nowMs)
    return { ...said, rejection: null, events, after: foldEvents(spokenTo, events) }
  }
  const result = decide(spokenTo, command, contextAt(step, by, nowMs))
  const events = result.ok ? result.value : []
  const rejection = result.ok ? null : result.error
  return { ...said, rejection, events, after: foldEvents(spokenTo, events) }
}

/** Walks all the steps from nine in the morning and hands each turn to `look`. */
export function walk(steps: readonly Step[], look: (turn: Turn) => void): Board {
  let board = walkRoom.board
  let nowMs = clock('09:00')
  for (const each of steps) {
    const turn = take(board, each, nowMs)
    look(turn)
    board = turn.after
    nowMs = turn.nowMs
  }
  return board
}

const seed = 20_260_516
const runs = 400
const stepsMax = 70

export const walks = fc.array(step, { minLength: 1, maxLength: stepsMax, size: 'max' })

/** `check` passes for any walk. Each use draws the same walks, so that a failure comes back. */
export const ofAnyWalk = (check: (steps: readonly Step[]) => void, numRuns = runs): void =>
  fc.assert(fc.property(walks, check), { seed, numRuns })

/** The same walks, as they are drawn. */
export const drawnWalks = (): readonly (readonly Step[])[] =>
  fc.sample(walks, { seed, numRuns: runs })

export const allEvents = (turn: Turn): readonly RoomEvent[] => [...turn.clockEvents, ...turn.events]

export const claims = (board: Board): readonly Held[] =>
  Object.values(board.nests).flatMap(({ hands }) => (hands.type === 'held' ? [hands] : []))
