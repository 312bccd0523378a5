// Boards written down as they stand at one moment, for looking at: a quiet room, a busy one, and the
// pieces to make others. Rules are tested through events; these are for views and screens, which only
// read. People, nests and the centre are invented.

import {
  type BirdId,
  type IncubatorId,
  minuteMs,
  type NestId,
  type PersonId,
  type PlanId,
  type PrivateId,
} from '../../shared/base/values.ts'
import type { Role, SignOff } from '../../shared/board/constants.ts'
import type { CarePlan } from '../../shared/board/parts.ts'
import {
  type Bird,
  type Board,
  emptyBoard,
  type Feed,
  type Nest,
  type Person,
} from '../../shared/board/state.ts'
import type { PublicNames } from '../../shared/views/names.ts'

/** 2026-06-13, a Saturday, at 10:24 in London: the moment every board here is written for. */
export const nowMs = Date.UTC(2026, 5, 13, 9, 24)
const dayAtMs = (hour: number, day = 13) => Date.UTC(2026, 5, day, hour - 1)

const allSignOffs: readonly SignOff[] = ['gapeSyringe', 'insectTweezers']

export type PersonLike = {
  readonly name: string
  readonly role?: Role
  readonly signOffs?: readonly SignOff[]
  readonly shift?: Person['shift']
  readonly backInMinutes?: number
}

const people: readonly PersonLike[] = [
  { name: 'Mira', role: 'lead', signOffs: [...allSignOffs, 'cropTube', 'fluids'] },
  { name: 'Ivo', signOffs: [...allSignOffs, 'cropTube'] },
  { name: 'Jonas' },
  { name: 'Noor' },
  { name: 'Priya', signOffs: [...allSignOffs, 'fluids'] },
  { name: 'Kofi' },
  { name: 'Saba' },
  { name: 'Lena', shift: 'off' },
  { name: 'Wen', shift: 'break', backInMinutes: 16 },
]

function personOf(like: PersonLike, at: number): Person {
  return {
    id: `p${at + 1}` as PersonId,
    nameId: `x${at + 1}` as PrivateId,
    role: like.role ?? 'volunteer',
    signOffs: like.signOffs ?? allSignOffs,
    shift: like.shift ?? 'on',
    shiftSinceMs: dayAtMs(7),
    backAtMs: like.backInMinutes === undefined ? null : nowMs + like.backInMinutes * minuteMs,
    isRemoved: false,
    mentor: null,
    actedAtMs: dayAtMs(7),
    unanswered: 0,
    tally: { sinceMs: 0, visits: 0, fed: 0, refused: 0, calls: 0 },
    unreachableSinceMs: null,
  }
}

const every = (minutes: number) => ({ type: 'every' as const, intervalMs: minutes * minuteMs })

export const plans: readonly CarePlan[] = [
  {
    id: 'c1' as PlanId,
    label: 'Songbird formula',
    technique: 'gapeSyringe',
    timing: every(30),
    earlyPercent: 10,
    planned: { unit: 'uL', n: 600 },
    cap: { unit: 'uL', n: 900 },
    source: 'invented for looking at',
  },
  {
    id: 'c2' as PlanId,
    label: 'Dove formula',
    technique: 'cropTube',
    timing: every(120),
    earlyPercent: 0,
    planned: { unit: 'uL', n: 4_000 },
    cap: { unit: 'uL', n: 6_000 },
    source: 'invented for looking at',
  },
]

/** One nest as a few words; every time is in minutes before now. */
export type NestLike = {
  readonly label: string
  readonly incubator: number
  readonly birds?: number
  readonly fedMinutesAgo?: number
  readonly plan?: 0 | 1
  readonly claimedBy?: number
  readonly claimedMinutesAgo?: number
  readonly hold?: string
  readonly settling?: true
  readonly doubtOf?: number
  readonly doubtMinutesAgo?: number
  readonly isQuarantined?: true
}

const bands = ['red', 'blue', 'yellow', 'green', 'white', 'orange'] as const
const ago = (minutes: number) => nowMs - minutes * minuteMs

function feedsOf(like: NestLike, no: number): readonly Feed[] {
  if (like.fedMinutesAgo === undefined || like.settling) return []
  const plan = plans[like.plan ?? 0]
  return [
    {
      no,
      startedAtMs: ago(like.fedMinutesAgo),
      outcome: 'ate',
      given: null,
      intervalMs: plan?.timing.type === 'every' ? plan.timing.intervalMs : 0,
      isSaid: false,
      extraAfter: null,
      isUnsure: false,
    },
  ]
}

function birdOf(like: NestLike, nest: NestId, id: number, place: number): Bird {
  return {
    id: `b${id}` as BirdId,
    nest,
    band: bands[place] ?? null,
    species: like.plan === 1 ? 'MODO' : 'HOFI',
    size: null,
    plan: like.settling ? null : ((plans[like.plan ?? 0]?.id ?? null) as PlanId | null),
    admittedAtMs: dayAtMs(9, 11),
    standing: like.settling
      ? { type: 'settling', lookDueAtMs: nowMs + 6 * minuteMs }
      : { type: 'released', atMs: dayAtMs(9, 11) },
    hold: null,
    holdEndedAtMs: 0,
    feeds: feedsOf(like, id),
    before: { fedAtMs: 0, refusedAtMs: 0, notFedAtMs: 0 },
    seenFullAtMs: 0,
    lookedFullAtMs: 0,
    seenEmptyAtMs: 0,
    arrivalMassMg: null,
    masses: [],
    fluidsAtMs: 0,
    fluidsSinceMs: 0,
    droppingsAtMs: 0,
    fetchedForNo: 0,
    lastSeen: null,
  }
}

const personAt = (at: number) => `p${at + 1}` as PersonId

function handsOf(like: NestLike, birds: readonly BirdId[], no: number): Nest['hands'] {
  if (like.claimedBy === undefined) return { type: 'free' }
  const claimedAtMs = ago(like.claimedMinutesAgo ?? 2)
  return {
    type: 'held',
    claimNo: no,
    person: personAt(like.claimedBy),
    birds,
    answered: [],
    claimedAtMs,
    startedAtMs: claimedAtMs,
    startIs: 'estimated',
    leaseEndsAtMs: claimedAtMs + 12 * minuteMs,
    stop: null,
    extraAfter: null,
  }
}

function doubtsOf(like: NestLike, birds: readonly BirdId[], no: number): Nest['doubts'] {
  if (like.doubtOf === undefined) return []
  const aboutAtMs = ago(like.doubtMinutesAgo ?? 14)
  const raisedAtMs = ago(2)
  const owner = personAt(like.doubtOf)
  return [{ no, kind: 'silent', owner, aboutAtMs, raisedAtMs, birds, looked: [], pair: null }]
}

function nestOf(like: NestLike, at: number, birds: readonly BirdId[]): Nest {
  return {
    id: `n${at + 1}` as NestId,
    label: like.label,
    incubator: `i${like.incubator}` as IncubatorId,
    isQuarantined: like.isQuarantined ?? false,
    noteId: null,
    openedAtMs: dayAtMs(9, 11),
    hold: like.hold
      ? {
          reason: like.hold,
          by: personAt(0),
          setAtMs: ago(20),
          lookAgainAtMs: nowMs + 20 * minuteMs,
        }
      : null,
    holdEndedAtMs: 0,
    hands: handsOf(like, birds, 1_000 + at),
    doubts: doubtsOf(like, birds, 2_000 + at),
    rounds: [],
    lastEnd: null,
    offer: null,
    tried: [],
    isLeadTold: false,
    short: null,
    settledTwice: [],
    fetchedFor: { visitNo: 0, fluidsAtMs: 0 },
  }
}

const byId = <T extends { readonly id: string }>(list: readonly T[]) =>
  Object.fromEntries(list.map((one) => [one.id, one]))

/** A board with these nests, in as many incubators as they name. */
export function boardOf(nests: readonly NestLike[], team: readonly PersonLike[] = people): Board {
  let lastBird = 0
  const broods = nests.map((like, at) => {
    const nest = `n${at + 1}` as NestId
    const birds = Array.from({ length: like.birds ?? 4 }, (_, place) => {
      lastBird += 1
      return birdOf(like, nest, lastBird, place)
    })
    return {
      nest: nestOf(
        like,
        at,
        birds.map((bird) => bird.id),
      ),
      birds,
    }
  })
  const incubators = Math.max(1, ...nests.map((nest) => nest.incubator))
  return {
    ...emptyBoard,
    room: {
      ...emptyBoard.room,
      id: 'nursery',
      season: '2026',
      title: 'Nursery',
      zone: 'Europe/London',
      opensMinute: 7 * 60,
      closesMinute: 21 * 60,
      openedAtMs: dayAtMs(6),
    },
    days: [
      {
        date: '2026-06-13',
        opensAtMs: dayAtMs(7),
        closesAtMs: dayAtMs(21),
        nextOpensAtMs: dayAtMs(7, 14),
      },
    ],
    counters: {
      nest: 120,
      bird: 400,
      person: 60,
      incubator: 30,
      plan: 120,
      visit: 5_000,
      request: 0,
      notice: 0,
    },
    incubators: byId(
      Array.from({ length: incubators }, (_, at) => ({
        id: `i${at + 1}` as IncubatorId,
        label: String(at + 1),
        reading: null,
      })),
    ),
    people: byId(team.map(personOf)),
    plans: byId(plans),
    nests: byId(broods.map(({ nest }) => nest)),
    birds: byId(broods.flatMap(({ birds }) => birds)),
  }
}

export const names: PublicNames = Object.fromEntries(
  people.map(({ name }, at) => [`x${at + 1}`, { name }]),
)

const labelLetters = 'ABCDEFGHJKLMNPQRSTUVWXYZ'
const labelAt = (at: number): string =>
  at < labelLetters.length
    ? (labelLetters[at] ?? '')
    : `${labelLetters[Math.floor(at / labelLetters.length) - 1]}${labelLetters[at % labelLetters.length]}`

const calmExceptions: Readonly<Record<string, Partial<NestLike>>> = {
  D: { claimedBy: 0, claimedMinutesAgo: 2 },
  H: { fedMinutesAgo: 30 },
  L: { fedMinutesAgo: 28 },
  P: { hold: 'crop full' },
  Q: { claimedBy: 2, claimedMinutesAgo: 1 },
  Z: { plan: 1, fedMinutesAgo: 50, isQuarantined: true },
}

const busyExceptions: Readonly<Record<string, Partial<NestLike>>> = {
  A: { fedMinutesAgo: 34 },
  C: { claimedBy: 0, claimedMinutesAgo: 2, fedMinutesAgo: 33 },
  F: { hold: 'crop full' },
  H: { fedMinutesAgo: 42 },
  K: { fedMinutesAgo: 41 },
  M: { fedMinutesAgo: 40 },
  N: { fedMinutesAgo: 35, doubtOf: 5, doubtMinutesAgo: 35 },
  T: { claimedBy: 1, claimedMinutesAgo: 1 },
  U: { fedMinutesAgo: 36 },
  W: { claimedBy: 2, claimedMinutesAgo: 4 },
  AD: { claimedBy: 3, claimedMinutesAgo: 1 },
  AG: { fedMinutesAgo: 44 },
  AK: { claimedBy: 4, claimedMinutesAgo: 6 },
  AN: { doubtOf: 6, doubtMinutesAgo: 10 },
  AS: { fedMinutesAgo: 33 },
  AU: { fedMinutesAgo: 31 },
  AV: { fedMinutesAgo: 33 },
  AX: { settling: true },
  AY: { settling: true },
  BA: { fedMinutesAgo: 41 },
  BC: { claimedBy: 5, claimedMinutesAgo: 3 },
  BG: { fedMinutesAgo: 30 },
  BH: { plan: 1, fedMinutesAgo: 140 },
  BM: { isQuarantined: true, fedMinutesAgo: 12 },
}

/** Twenty-four nests in six incubators on a calm morning: two in hands, one due, none late. */
export const calmRoom: Board = boardOf(
  [...'ABCDEFGHJKLMNPQRSTUVWXYZ'].map((label, at) => ({
    label,
    incubator: 1 + Math.floor(at / 4),
    birds: 1 + (at % 5),
    fedMinutesAgo: 1 + ((at * 7) % 26),
    ...calmExceptions[label],
  })),
)

/** Sixty nests in ten incubators, behind: late ones, claims, holds, a doubt, arrivals, a quarantine. */
export const busyRoom: Board = boardOf(
  Array.from({ length: 60 }, (_, at) => {
    const label = labelAt(at)
    return {
      label,
      incubator: 1 + Math.floor(at / 6),
      birds: 1 + (at % 5),
      fedMinutesAgo: 1 + ((at * 11) % 28),
      ...busyExceptions[label],
    }
  }),
)

/** Twenty-four nests of which most are late, one incubator with all four, and nobody free. */
export const jammedRoom: Board = boardOf(
  Array.from({ length: 60 }, (_, at) => ({
    label: labelAt(at),
    incubator: 1 + Math.floor(at / 6),
    fedMinutesAgo: at % 6 < 4 ? 100 + at : 20,
    ...(at % 6 === 4 ? { claimedBy: Math.floor(at / 6) % 7, claimedMinutesAgo: 12 } : {}),
    ...(at % 12 === 5 ? { hold: 'vet to see the left wing first' } : {}),
    ...(at % 6 === 1 ? { doubtOf: 5, doubtMinutesAgo: 40 } : {}),
  })),
)

/** Kofi has F, four house finches that Ivo may have fed; and E, mixed: one on another plan, one held. */
export const lookRoom: Board = boardOf([
  { label: 'E', incubator: 1, birds: 6, fedMinutesAgo: 33, claimedBy: 1, claimedMinutesAgo: 3 },
  { label: 'F', incubator: 1, fedMinutesAgo: 45, doubtOf: 1, claimedBy: 5, claimedMinutesAgo: 1 },
  { label: 'G', incubator: 2, fedMinutesAgo: 45, doubtOf: 1 },
  { label: 'H', incubator: 2, fedMinutesAgo: 2 },
  { label: 'J', incubator: 2, fedMinutesAgo: 20 },
  { label: 'K', incubator: 2, birds: 1, plan: 1, fedMinutesAgo: 130 },
])

/** Fourteen incubators of six: more lanes than the wall has room for at full size. */
export const wideRoom: Board = boardOf(
  Array.from({ length: 84 }, (_, at) => ({
    label: labelAt(at),
    incubator: 1 + Math.floor(at / 6),
    fedMinutesAgo: (at * 11) % 36,
  })),
)
