// The board: what a room must know now. Small, public, and bounded in every part; everything on it
// may hang on a wall, so people and notes are only ids here. It is changed by `evolve` and nobody else.
// Due, late and pace are functions of it, never fields.

import type {
  BirdId,
  IncubatorId,
  InstantMs,
  LengthMs,
  NestId,
  PersonId,
  PlanId,
  PrivateId,
} from '../base/values.ts'
import type { Outcome, Role, SignOff } from './constants.ts'
import type { EventOf } from './events.ts'
import type { CarePlan, DayWindow, GivenAmount, Hold } from './parts.ts'

export type Person = {
  readonly id: PersonId
  readonly nameId: PrivateId
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  readonly shift: 'off' | 'on' | 'break'
  readonly shiftSinceMs: InstantMs
  readonly backAtMs: InstantMs | null
  readonly isRemoved: boolean
}

export type Incubator = {
  readonly id: IncubatorId
  readonly label: string
  readonly reading: { tempDeciC: number; humidityPercent: number | null; atMs: InstantMs } | null
}

/** One bird's part in one visit; `no` is the visit's number, shared by the whole brood. */
export type Feed = {
  readonly no: number
  readonly startedAtMs: InstantMs
  readonly outcome: Outcome
  readonly given: GivenAmount | null
  readonly intervalMs: LengthMs
  readonly isSaid: boolean
  readonly extraAfter: number | null
}

/** The latest of each kind among feeds that the short list below no longer holds. */
export type FeedsBefore = {
  readonly fedAtMs: InstantMs
  readonly refusedAtMs: InstantMs
  readonly notFedAtMs: InstantMs
}

export type Bird = {
  readonly id: BirdId
  readonly nest: NestId
  readonly band: string | null
  readonly species: string | null
  readonly size: string | null
  readonly plan: PlanId | null
  readonly admittedAtMs: InstantMs
  readonly standing:
    | { readonly type: 'settling'; readonly lookDueAtMs: InstantMs }
    | { readonly type: 'released'; readonly atMs: InstantMs }
  readonly hold: Hold | null
  readonly holdEndedAtMs: InstantMs
  /** Earliest first, the latest few. */
  readonly feeds: readonly Feed[]
  readonly before: FeedsBefore
  /** The time a full crop stands for, and when it was looked at; the later look wins over an empty one. */
  readonly seenFullAtMs: InstantMs
  readonly lookedFullAtMs: InstantMs
  readonly seenEmptyAtMs: InstantMs
  readonly arrivalMassMg: number | null
  readonly masses: readonly { readonly massMg: number; readonly atMs: InstantMs }[]
  readonly lastSeen: { signs: readonly string[]; droppings: string; atMs: InstantMs } | null
}

export type Held = {
  readonly type: 'held'
  readonly claimNo: number
  readonly person: PersonId
  /** Fixed when claimed; only a hold or somebody else's record takes one away. */
  readonly birds: readonly BirdId[]
  readonly answered: readonly BirdId[]
  readonly claimedAtMs: InstantMs
  readonly startedAtMs: InstantMs
  readonly startIs: 'estimated' | 'tapped'
  readonly leaseEndsAtMs: InstantMs
  readonly stop: 'held' | 'fedByOther' | 'perhapsFed' | null
  readonly extraAfter: number | null
}
export type Hands = { readonly type: 'free' } | Held

/** Somebody may have fed these birds: look before you feed. `looked` are those already looked at. */
export type Doubt = {
  readonly no: number
  readonly kind: 'silent' | 'setAside'
  readonly owner: PersonId | null
  readonly aboutAtMs: InstantMs
  readonly raisedAtMs: InstantMs
  readonly birds: readonly BirdId[]
  readonly looked: readonly BirdId[]
}

/** One visit to a nest. What each bird did stands with the bird, under the same number. */
export type Round = {
  readonly no: number
  readonly person: PersonId
  readonly startedAtMs: InstantMs
  readonly recordedAtMs: InstantMs
  readonly standing: 'current' | 'late' | 'unclaimed'
  readonly isSaid: boolean
  readonly birds: readonly BirdId[]
  readonly back: number | null
  readonly door: 'shut' | 'notSeen' | null
  readonly marks: EventOf<'RoundRecorded'>['marks']
  readonly isTakenBack: boolean
  readonly corrections: number
}

export type Nest = {
  readonly id: NestId
  readonly label: string
  readonly incubator: IncubatorId
  readonly isQuarantined: boolean
  readonly noteId: PrivateId | null
  readonly openedAtMs: InstantMs
  readonly hold: Hold | null
  readonly holdEndedAtMs: InstantMs
  readonly hands: Hands
  /** How the last claim ended, so that its holder's screen can say so even after a gap. */
  readonly lastEnd: {
    readonly claimNo: number
    readonly person: PersonId
    readonly how: EventOf<'ClaimEnded'>['how']
    readonly atMs: InstantMs
  } | null
  readonly doubts: readonly Doubt[]
  /** Earliest first, the latest few. */
  readonly rounds: readonly Round[]
}

export type SetAside = {
  readonly by: PersonId
  readonly atMs: InstantMs
  readonly why: EventOf<'ReportSetAside'>['why']
  readonly nest: NestId | null
  readonly what: string
}

export type Board = {
  readonly room: {
    readonly id: string
    readonly season: string
    readonly title: string
    readonly zone: string
    readonly opensMinute: number
    readonly closesMinute: number
    /** Civil time minus the room's clock; changed only by an event. */
    readonly civilOffsetMs: LengthMs
    /** When the server last began to serve this room; leases and questions run from here at least. */
    readonly openedAtMs: InstantMs
  }
  /** The feeding days, today last. */
  readonly days: readonly DayWindow[]
  /** The last number given of each kind; none is ever given twice. `visit` numbers claims and rounds. */
  readonly counters: {
    readonly nest: number
    readonly bird: number
    readonly person: number
    readonly incubator: number
    readonly plan: number
    readonly visit: number
  }
  readonly incubators: Readonly<Record<IncubatorId, Incubator>>
  readonly people: Readonly<Record<PersonId, Person>>
  readonly plans: Readonly<Record<PlanId, CarePlan>>
  readonly nests: Readonly<Record<NestId, Nest>>
  readonly birds: Readonly<Record<BirdId, Bird>>
  readonly setAside: readonly SetAside[]
}

/** A board before its founding record; the only place where no day is known. */
export const emptyBoard: Board = {
  room: {
    id: '',
    season: '',
    title: '',
    zone: 'UTC',
    opensMinute: 0,
    closesMinute: 1440,
    civilOffsetMs: 0,
    openedAtMs: 0,
  },
  days: [],
  counters: { nest: 0, bird: 0, person: 0, incubator: 0, plan: 0, visit: 0 },
  incubators: {},
  people: {},
  plans: {},
  nests: {},
  birds: {},
  setAside: [],
}
