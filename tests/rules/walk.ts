// A random walk through a small room: people of every role ask and report, late, twice, under old and
// made-up numbers; time passes, the server goes away and comes back, civil time moves. A walk is data,
// drawn by fast-check and read here against the board as it stands, so that most steps mean something.

import fc from 'fast-check'
import {
  type BirdId,
  hourMs,
  type InstantMs,
  minuteMs,
  type NestId,
  type PersonId,
  secondMs,
} from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { crops, outcomes } from '../../shared/board/constants.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Context } from '../../shared/rules/context.ts'
import { decide } from '../../shared/rules/decide.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { civilOffsetEvents, openingEvents } from '../../shared/rules/founding.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import { letTimePass, type Order } from '../support/given.ts'
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

const kinds = [
  ...Array<'ClaimNest'>(6).fill('ClaimNest'),
  ...Array<'AnswerBirds'>(6).fill('AnswerBirds'),
  'StartFeed',
  'StartFeed',
  'StartFeed',
  'GiveBack',
  'MoreTime',
  'CalledAway',
  'SayWhatHappened',
  'SayWhatHappened',
  'Looked',
  'Looked',
  'TakeBackFeed',
  'TakeBackFeed',
  'CorrectFeed',
  'SetHold',
  'LiftHold',
  'LiftHold',
  'HoldBird',
  'ReleaseArrival',
  'BoxArrived',
  'BirdSeen',
  'Weighed',
  'IncubatorRead',
  'FluidsGiven',
  'BeginShift',
  'BeginShift',
  'EndShift',
  'BeginBreak',
  'EndBreak',
  'EndBreak',
  'SetSignOffs',
  'RemovePerson',
  'AdmitBrood',
  'Withdrawn',
  'outage',
  'civilOffset',
] as const
export type Kind = (typeof kinds)[number]

export type Step = {
  readonly kind: Kind
  readonly waitMs: number
  /** Spoken by whom it concerns, about a nest it concerns; otherwise by anybody about any. */
  readonly isAimed: boolean
  readonly who: number
  readonly nest: number
  /** Which birds of the nest, bit by bit. */
  readonly birds: number
  /** Which visit number is meant. */
  readonly no: 'current' | 'current' | 'none' | 'recent' | 'made up' | 'huge'
  readonly agoMs: number
  readonly startedAgoMs: number | null
  /** Chooses among what the step leaves open. */
  readonly pick: number
}

const upTo = (max: number) => fc.integer({ min: 0, max })

export const step: fc.Arbitrary<Step> = fc.record({
  kind: fc.constantFrom(...kinds),
  waitMs: fc.oneof(
    { weight: 20, arbitrary: upTo(20 * secondMs) },
    { weight: 20, arbitrary: upTo(4 * minuteMs) },
    { weight: 4, arbitrary: upTo(40 * minuteMs) },
    { weight: 1, arbitrary: upTo(30 * hourMs) },
  ),
  isAimed: fc.constantFrom(true, true, true, false),
  who: upTo(everyone.length - 1),
  nest: upTo(9),
  birds: fc.integer({ min: 1, max: 15 }),
  no: fc.constantFrom('current', 'current', 'none', 'recent', 'made up', 'huge'),
  agoMs: fc.oneof(
    { weight: 6, arbitrary: fc.constant(0) },
    { weight: 2, arbitrary: upTo(20 * secondMs) },
    { weight: 1, arbitrary: upTo(2 * hourMs) },
  ),
  startedAgoMs: fc.oneof(
    fc.constant(null),
    upTo(90 * secondMs),
    upTo(10 * minuteMs),
    upTo(3 * hourMs),
  ),
  pick: upTo(999),
})

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
/** Four broodmates on four different plans, beside the nests of the small room. */
export const walkRoom = room.and(
  nest(mixed, {
    label: 'X',
    incubator: inc1,
    birds: [twentyMinutely, halfHourly, twoHourlyTube, atEightNoonFour].map((plan, at) => ({
      id: birdOf(20 + at),
      plan,
    })),
  }),
)

const chosen = <T>(from: readonly T[], pick: number): T => from[pick % from.length] as T

function birdsOfNest(board: Board, id: NestId, mask: number): readonly BirdId[] {
  const all = Object.values(board.birds).filter((bird) => bird.nest === id)
  const some = all.filter((_, at) => mask & (1 << (at % 4))).map((bird) => bird.id)
  return some.length > 0 ? some.slice(0, 12) : [all[0]?.id ?? birdOf(999)]
}

const made = 7
function visitNo(board: Board, where: NestId, step: Step): number | undefined {
  const hands = board.nests[where]?.hands
  switch (step.no) {
    case 'none':
      return undefined
    case 'huge':
      return step.pick % 2 ? Number.MAX_SAFE_INTEGER : board.counters.visit + 1
    case 'made up':
      return Math.max(1, (step.pick % (board.counters.visit + made)) + 1)
    case 'recent': {
      const known = [
        ...(board.nests[where]?.doubts ?? []).map(({ no }) => no),
        ...(board.nests[where]?.rounds ?? []).map(({ no }) => no),
      ]
      return known.length > 0 ? chosen(known, step.pick) : 1
    }
    default:
      return hands?.type === 'held' ? hands.claimNo : board.nests[where]?.doubts.at(-1)?.no
  }
}

const labels = ['F', 'K', 'L', 'N', 'O', 'P', 'R'] as const

type Aim = { readonly by: PersonId; readonly where: NestId }
const aboutAClaim: ReadonlySet<Kind> = new Set<Kind>([
  ...(['AnswerBirds', 'StartFeed', 'GiveBack', 'MoreTime', 'CalledAway'] as const),
  ...(['SayWhatHappened', 'HoldBird', 'SetHold'] as const),
])
const aboutARound: ReadonlySet<Kind> = new Set<Kind>(['TakeBackFeed', 'CorrectFeed'])
const aboutADoubt: ReadonlySet<Kind> = new Set<Kind>(['SayWhatHappened', 'Looked'])
const ofALead: ReadonlySet<Kind> = new Set<Kind>([
  ...(['SetHold', 'LiftHold', 'ReleaseArrival', 'AdmitBrood'] as const),
])
const leads = everyone.slice(3, 5)

const people = (board: Board, shift: 'off' | 'break') =>
  everyone.filter((id) => board.people[id]?.shift === shift)

/** Who says it about which nest. */
function aimOf(board: Board, step: Step): Aim {
  const nests = Object.values(board.nests)
  const anybody = chosen(everyone, step.who)
  const anywhere: Aim = {
    by: ofALead.has(step.kind) && step.isAimed ? chosen(leads, step.who) : anybody,
    where: step.pick === 999 ? nestOf(99) : (chosen(nests, step.nest).id as NestId),
  }
  if (!step.isAimed) return anywhere
  if (step.kind === 'BeginShift' || step.kind === 'EndBreak') {
    const away = people(board, step.kind === 'BeginShift' ? 'off' : 'break')
    return away.length > 0 ? { ...anywhere, by: chosen(away, step.who) } : anywhere
  }
  const doubted = nests.filter(({ doubts }) => doubts.length > 0)
  if (aboutADoubt.has(step.kind) && doubted.length > 0 && step.pick % 3 > 0) {
    const { id, doubts } = chosen(doubted, step.nest)
    return { by: doubts.at(-1)?.owner ?? anybody, where: id }
  }
  const fed = nests.filter(({ rounds }) => rounds.length > 1)
  if (aboutARound.has(step.kind) && fed.length > 0) {
    const { id, rounds } = chosen(fed, step.nest)
    return { by: rounds.at(-1)?.person ?? anybody, where: id }
  }
  const held = nests.flatMap(({ id, hands }) =>
    hands.type === 'held' ? [{ by: hands.person, where: id }] : [],
  )
  if (!aboutAClaim.has(step.kind) || held.length === 0) return anywhere
  const aim = chosen(held, step.nest)
  return ofALead.has(step.kind) ? { ...aim, by: anywhere.by } : aim
}

/** What the step says, read against the board it is said to; null for what nobody says. */
function orderOf(board: Board, where: NestId, step: Step, nowMs: InstantMs): Order | null {
  const own = birdsOfNest(board, where, step.birds)
  const stray = birdsOfNest(board, chosen(Object.keys(board.nests) as NestId[], step.pick), 1)
  const birds =
    step.pick % 50 === 48
      ? [birdOf(999), ...own].slice(0, 12)
      : step.pick % 50 === 47
        ? [...new Set([...own, ...stray])].slice(0, 12)
        : own
  const bird = birds[0] ?? birdOf(999)
  const no = visitNo(board, where, step)
  const claimNo = no ?? 1
  const numbered = no === undefined ? {} : { claimNo: no }
  const even = step.pick % 2 === 0
  const lookAgainAtMs = nowMs + (step.pick % 40) * hourMs
  const answers = birds.map((each, at) => ({
    bird: each,
    outcome: chosen(outcomes, step.pick + at * 3),
  }))
  const said = chosen(
    [{ type: 'all' }, { type: 'none' }, { type: 'some', birds }] as const,
    step.pick,
  )
  switch (step.kind) {
    case 'ClaimNest': {
      const seenDoubts = even
        ? { seenDoubts: (board.nests[where]?.doubts ?? []).slice(0, 4).map((each) => each.no) }
        : {}
      const extra =
        step.pick % 5 === 0 ? { extra: { birds, reason: 'gaping hard', afterFeed: claimNo } } : {}
      const sure = step.pick % 3 === 0 ? ({ sureEarly: true } as const) : {}
      return { type: 'ClaimNest', nest: where, ...seenDoubts, ...sure, ...extra }
    }
    case 'AnswerBirds': {
      const saidAt =
        step.pick % 7 === 0 ? { saidAtMs: Math.max(0, nowMs - step.pick * minuteMs) } : {}
      return { type: 'AnswerBirds', nest: where, ...numbered, answers, ...saidAt }
    }
    case 'StartFeed':
      return { type: 'StartFeed', nest: where, ...numbered }
    case 'GiveBack':
    case 'MoreTime':
    case 'CalledAway':
      return { type: step.kind, nest: where, claimNo }
    case 'SayWhatHappened':
      return { type: 'SayWhatHappened', nest: where, claimNo, said }
    case 'Looked': {
      const looks = birds.map((each, at) => ({ bird: each, crop: chosen(crops, step.pick + at) }))
      return { type: 'Looked', nest: where, looks }
    }
    case 'TakeBackFeed': {
      const wasFed = chosen(['yes', 'no', 'unknown', undefined] as const, step.pick)
      return { type: 'TakeBackFeed', nest: where, claimNo, ...(wasFed ? { wasFed } : {}) }
    }
    case 'CorrectFeed':
      return { type: 'CorrectFeed', nest: where, claimNo, answers, reason: 'tapped wrong' }
    case 'SetHold':
      return { type: 'SetHold', nest: where, reason: 'limping', lookAgainAtMs }
    case 'LiftHold': {
      const heldBird = Object.values(board.birds).find(({ hold }) => hold !== null)
      const what = even && heldBird ? { nest: heldBird.nest, bird: heldBird.id } : { nest: where }
      return { type: 'LiftHold', whyLifted: 'well again', ...what }
    }
    case 'HoldBird':
      return { type: 'HoldBird', bird, reason: 'limping', lookAgainAtMs }
    case 'ReleaseArrival': {
      const warming = Object.values(board.birds)
        .filter(({ standing }) => standing.type === 'settling')
        .map(({ id }) => id)
      const some =
        step.isAimed && warming.length > 0 ? warming.slice(0, 1 + (step.pick % 4)) : birds
      return { type: 'ReleaseArrival', birds: some, plan: halfHourly }
    }
    case 'BoxArrived': {
      const howMany = 1 + (step.pick % 5)
      return {
        type: 'BoxArrived',
        label: chosen(labels, step.pick),
        incubator: inc1,
        howMany,
        size: 'small',
      }
    }
    case 'AdmitBrood': {
      const brood = [{ band: `r${step.pick}`, species: 'HOFI', plan: twentyMinutely }]
      return {
        type: 'AdmitBrood',
        label: chosen(labels, step.pick),
        incubator: inc1,
        quarantined: even,
        birds: brood,
      }
    }
    case 'BirdSeen':
      return { type: 'BirdSeen', bird, signs: ['sneezing'], droppings: even ? 'seen' : 'none' }
    case 'Weighed':
      return { type: 'Weighed', bird, massMg: 10_000 + step.pick }
    case 'IncubatorRead':
      return { type: 'IncubatorRead', incubator: inc1, tempDeciC: 300 + (step.pick % 80) }
    case 'FluidsGiven': {
      const given = { unit: 'uL', n: step.pick } as const
      return { type: 'FluidsGiven', bird, fluid: 'saline', route: 'byMouth', given, isWarmed: even }
    }
    case 'SetSignOffs': {
      const signOffs = even ? (['gapeSyringe'] as const) : (['gapeSyringe', 'cropTube'] as const)
      return { type: 'SetSignOffs', person: chosen(everyone, step.nest), signOffs }
    }
    case 'RemovePerson':
      // Few may go, or the room empties.
      return { type: 'RemovePerson', person: chosen(everyone.slice(0, 2), step.nest) }
    case 'BeginShift':
    case 'EndShift':
    case 'BeginBreak':
    case 'EndBreak':
    case 'Withdrawn':
      return { type: step.kind }
    case 'outage':
    case 'civilOffset':
      return null
  }
}

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
    const events = civilOffsetEvents(spokenTo, ((step.pick % 5) - 2) * hourMs, nowMs)
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
