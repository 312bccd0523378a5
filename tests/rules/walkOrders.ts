// What a step of a walk says: who speaks, of which nest, and the order in full, read against the board
// so that most steps mean something. A step not aimed is said by anybody about anything.

import {
  type BirdId,
  hourMs,
  type InstantMs,
  minuteMs,
  type NestId,
} from '../../shared/base/values.ts'
import { crops, outcomes } from '../../shared/board/constants.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Order } from '../support/given.ts'
import { birdOf, nestOf } from '../support/roomBuilder.ts'
import { everyone, halfHourly, inc1, twentyMinutely } from './smallRoom.ts'
import { callAim, callMakers } from './walkCalls.ts'
import type { Aim, Maker, Said } from './walkSaid.ts'
import type { Kind, Step } from './walkSteps.ts'

export const chosen = <T>(from: readonly T[], pick: number): T => from[pick % from.length] as T

function birdsOfNest(board: Board, id: NestId, mask: number): readonly BirdId[] {
  const all = Object.values(board.birds).filter((bird) => bird.nest === id)
  const some = all.filter((_, at) => mask & (1 << (at % 4))).map((bird) => bird.id)
  return some.length > 0 ? some.slice(0, 12) : [all[0]?.id ?? birdOf(999)]
}

/** How far beyond the numbers given a made-up one may lie. */
const madeUpMax = 7
function visitNo(board: Board, where: NestId, step: Step): number | undefined {
  const hands = board.nests[where]?.hands
  switch (step.no) {
    case 'none':
      return undefined
    case 'huge':
      return step.pick % 2 ? Number.MAX_SAFE_INTEGER : board.counters.visit + 1
    case 'made up':
      return Math.max(1, (step.pick % (board.counters.visit + madeUpMax)) + 1)
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
export function aimOf(board: Board, step: Step): Aim {
  const nests = Object.values(board.nests)
  const anybody = chosen(everyone, step.who)
  const anywhere: Aim = {
    by: ofALead.has(step.kind) && step.isAimed ? chosen(leads, step.who) : anybody,
    where: step.pick === 999 ? nestOf(99) : (chosen(nests, step.nest).id as NestId),
  }
  if (!step.isAimed) return anywhere
  const ofCall = callAim(board, step)
  if (ofCall) return ofCall
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

/** Mostly birds of the nest; now and then an unknown one among them, or one from another nest. */
function birdsMeant(board: Board, where: NestId, step: Step): readonly BirdId[] {
  const own = birdsOfNest(board, where, step.birds)
  if (step.pick % 50 === 48) return [birdOf(999), ...own].slice(0, 12)
  if (step.pick % 50 !== 47) return own
  const nests = Object.keys(board.nests) as NestId[]
  return [...new Set([...own, ...birdsOfNest(board, chosen(nests, step.pick), 1)])].slice(0, 12)
}

const answersOf = ({ birds, step }: Said) =>
  birds.map((bird, at) => ({ bird, outcome: chosen(outcomes, step.pick + at * 3) }))
const labels = ['F', 'K', 'L', 'N', 'O', 'P', 'R'] as const

const askMakers = {
  ClaimNest: ({ board, step, nest, birds, claimNo, isEven }) => ({
    type: 'ClaimNest',
    nest,
    ...(isEven
      ? { seenDoubts: (board.nests[nest]?.doubts ?? []).slice(0, 4).map(({ no }) => no) }
      : {}),
    ...(step.pick % 3 === 0 ? ({ sureEarly: true } as const) : {}),
    ...(step.pick % 5 === 0 ? { extra: { birds, reason: 'gaping hard', afterFeed: claimNo } } : {}),
  }),
  GiveBack: ({ nest, claimNo }) => ({ type: 'GiveBack', nest, claimNo }),
  MoreTime: ({ nest, claimNo }) => ({ type: 'MoreTime', nest, claimNo }),
  BeginShift: () => ({ type: 'BeginShift' }),
  EndShift: () => ({ type: 'EndShift' }),
  BeginBreak: () => ({ type: 'BeginBreak' }),
  EndBreak: () => ({ type: 'EndBreak' }),
  SetHold: (said) => ({ type: 'SetHold', nest: said.nest, ...holdOf(said) }),
  LiftHold: ({ board, nest, isEven }) => {
    const heldBird = Object.values(board.birds).find(({ hold }) => hold !== null)
    const what = isEven && heldBird ? { nest: heldBird.nest, bird: heldBird.id } : { nest }
    return { type: 'LiftHold', whyLifted: 'well again', ...what }
  },
  ReleaseArrival: ({ board, step, birds }) => {
    const warming = Object.values(board.birds)
      .filter(({ standing }) => standing.type === 'settling')
      .map(({ id }) => id)
    const isKnown = step.isAimed && warming.length > 0
    const some = isKnown ? warming.slice(0, 1 + (step.pick % 4)) : birds
    return { type: 'ReleaseArrival', birds: some, plan: halfHourly }
  },
  AdmitBrood: ({ step, isEven }) => ({
    type: 'AdmitBrood',
    label: chosen(labels, step.pick),
    incubator: inc1,
    quarantined: isEven,
    birds: [{ band: `r${step.pick}`, species: 'HOFI', plan: twentyMinutely }],
  }),
  SetSignOffs: ({ step, isEven }) => ({
    type: 'SetSignOffs',
    person: chosen(everyone, step.nest),
    signOffs: isEven ? ['gapeSyringe'] : ['gapeSyringe', 'cropTube'],
  }),
  // Few may go, or the room empties.
  RemovePerson: ({ step }) => ({
    type: 'RemovePerson',
    person: chosen(everyone.slice(0, 2), step.nest),
  }),
  Withdrawn: () => ({ type: 'Withdrawn' }),
} as const satisfies Partial<Record<Kind, Maker>>

const holdOf = ({ nowMs, step }: Said) => ({
  reason: 'limping',
  lookAgainAtMs: nowMs + (step.pick % 40) * hourMs,
})
/** Now and then a count, and a brood of which one bird did otherwise and nobody knows which. */
const countedBack = ({ birds, step }: Said) => ({
  ...(step.pick % 4 === 0 ? { back: (step.pick >> 2) % (birds.length + 1) } : {}),
  ...(step.pick % 4 === 1
    ? {
        notKnownWhich: {
          outcome: chosen(['refused', 'notFed'] as const, step.pick >> 2),
          count: 1,
        },
      }
    : {}),
})
const numbered = ({ no }: Said) => (no === undefined ? {} : { claimNo: no })

const reportMakers = {
  StartFeed: (said) => ({ type: 'StartFeed', nest: said.nest, ...numbered(said) }),
  AnswerBirds: (said) => ({
    type: 'AnswerBirds',
    nest: said.nest,
    ...numbered(said),
    answers: answersOf(said),
    ...countedBack(said),
    ...(said.step.pick % 7 === 0
      ? { saidAtMs: Math.max(0, said.nowMs - said.step.pick * minuteMs) }
      : {}),
  }),
  CalledAway: ({ nest, claimNo }) => ({ type: 'CalledAway', nest, claimNo }),
  SayWhatHappened: ({ nest, claimNo, birds, step }) => ({
    type: 'SayWhatHappened',
    nest,
    claimNo,
    said: chosen([{ type: 'all' }, { type: 'none' }, { type: 'some', birds }] as const, step.pick),
  }),
  Looked: ({ nest, birds, step }) => ({
    type: 'Looked',
    nest,
    looks: birds.map((bird, at) => ({ bird, crop: chosen(crops, step.pick + at) })),
  }),
  TakeBackFeed: ({ nest, claimNo, step }) => {
    const wasFed = chosen(['yes', 'no', 'unknown', undefined] as const, step.pick)
    return { type: 'TakeBackFeed', nest, claimNo, ...(wasFed ? { wasFed } : {}) }
  },
  CorrectFeed: (said) => ({
    type: 'CorrectFeed',
    nest: said.nest,
    claimNo: said.claimNo,
    answers: said.isEven ? answersOf(said) : [],
    reason: 'tapped wrong',
    ...(said.isEven
      ? {}
      : { toNest: chosen(Object.keys(said.board.nests) as NestId[], said.step.pick) }),
  }),
  HoldBird: (said) => ({ type: 'HoldBird', bird: said.bird, ...holdOf(said) }),
  BoxArrived: ({ step }) => ({
    type: 'BoxArrived',
    label: chosen(labels, step.pick),
    incubator: inc1,
    howMany: 1 + (step.pick % 5),
    size: 'small',
  }),
  BirdSeen: ({ bird, isEven }) => ({
    type: 'BirdSeen',
    bird,
    signs: ['sneezing'],
    droppings: isEven ? 'seen' : 'none',
  }),
  Weighed: ({ bird, step }) => ({ type: 'Weighed', bird, massMg: 10_000 + step.pick }),
  IncubatorRead: ({ step }) => ({
    type: 'IncubatorRead',
    incubator: inc1,
    tempDeciC: 300 + (step.pick % 80),
  }),
  FluidsGiven: ({ bird, step, isEven }) => ({
    type: 'FluidsGiven',
    bird,
    fluid: 'saline',
    route: 'byMouth',
    given: { unit: 'uL', n: step.pick },
    isWarmed: isEven,
  }),
} as const satisfies Partial<Record<Kind, Maker>>

const makers: Readonly<Record<Exclude<Kind, 'outage' | 'civilOffset' | 'presence'>, Maker>> = {
  ...askMakers,
  ...reportMakers,
  ...callMakers,
}

/** What the step says about this nest; null for what nobody says. */
export function orderOf(board: Board, nest: NestId, step: Step, nowMs: InstantMs): Order | null {
  if (step.kind === 'outage' || step.kind === 'civilOffset' || step.kind === 'presence') return null
  const birds = birdsMeant(board, nest, step)
  const no = visitNo(board, nest, step)
  return makers[step.kind]({
    ...{ board, step, nowMs, nest, birds, no },
    bird: birds[0] ?? birdOf(999),
    claimNo: no ?? 1,
    isEven: step.pick % 2 === 0,
  })
}
