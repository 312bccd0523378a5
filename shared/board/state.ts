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
  RequestId,
} from '../base/values.ts'
import type { NoticeReason, Outcome, RequestKind, Role, SignOff } from './constants.ts'
import type { EventOf } from './events.ts'
import type { CarePlan, DayWindow, GivenAmount, Hold, NotKnownWhich } from './parts.ts'

export type Person = {
  readonly id: PersonId
  readonly nameId: PrivateId
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  readonly shift: 'off' | 'on' | 'break'
  readonly shiftSinceMs: InstantMs
  readonly backAtMs: InstantMs | null
  readonly isRemoved: boolean
  /** Who answers for a trainee; without one on shift a trainee may claim nothing. */
  readonly mentor: PersonId | null
  /** The last thing this person did that the board knows of. */
  readonly actedAtMs: InstantMs
  /** Offers gone unanswered since then. */
  readonly unanswered: number
  /** What they did since their shift began; breaks do not end it. */
  readonly tally: {
    readonly sinceMs: InstantMs
    readonly visits: number
    readonly fed: number
    readonly refused: number
    readonly calls: number
  }
  /** Since when no screen of theirs is heard; null while one is. */
  readonly unreachableSinceMs: InstantMs | null
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
  /** Some bird of this visit did otherwise and nobody knows which: it may have been this one. */
  readonly isUnsure: boolean
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
  /** When it was last given fluids, and when its droppings were last seen; 0 for never here. */
  readonly fluidsAtMs: InstantMs
  /** The first of the fluids since its droppings were seen, or since somebody was asked for them. */
  readonly fluidsSinceMs: InstantMs
  readonly droppingsAtMs: InstantMs
  /** The visit of its last refusal that somebody has already been fetched for. */
  readonly fetchedForNo: number
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
  readonly kind: 'silent' | 'setAside' | 'twice'
  readonly owner: PersonId | null
  readonly aboutAtMs: InstantMs
  readonly raisedAtMs: InstantMs
  readonly birds: readonly BirdId[]
  readonly looked: readonly BirdId[]
  /** The two records, where the same birds seem fed twice. */
  readonly pair: readonly [number, number] | null
}

/** A person asked to take a late nest, and until when the question stands. */
export type Offer = {
  readonly person: PersonId
  readonly by: PersonId | null
  readonly madeAtMs: InstantMs
  readonly endsAtMs: InstantMs
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
  /** Taken back, or moved to the nest that was really fed. */
  readonly isTakenBack: boolean
  readonly movedTo: NestId | null
  readonly notKnownWhich: NotKnownWhich | null
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
  readonly offer: Offer | null
  /** Asked for this lateness already; cleared by a feed, and for a person who becomes free again. */
  readonly tried: readonly PersonId[]
  /** The lead has been told of this lateness. */
  readonly isLeadTold: boolean
  /** Birds not counted back: watch the doors until they are found. */
  readonly short: {
    readonly missing: number
    readonly no: number
    readonly sinceMs: InstantMs
  } | null
  /** Pairs of records that were looked into and are asked about no more. */
  readonly settledTwice: readonly (readonly [number, number])[]
  /** The last visit, and the last fluids, that somebody was already fetched to this nest for. */
  readonly fetchedFor: { readonly visitNo: number; readonly fluidsAtMs: InstantMs }
}

/** Somebody is called: for fluids, to decide on an arrival, or for help. */
export type Request = {
  readonly id: RequestId
  readonly kind: RequestKind
  readonly why: EventOf<'RequestRaised'>['why']
  readonly nest: NestId | null
  readonly bird: BirdId | null
  readonly by: PersonId | null
  readonly raisedAtMs: InstantMs
  readonly noteId: PrivateId | null
  readonly taken: { readonly person: PersonId; readonly atMs: InstantMs } | null
  readonly declined: readonly PersonId[]
  readonly isLeadTold: boolean
}

/** Something the lead is told once; it goes when a lead has read it. */
export type Notice = {
  readonly no: number
  readonly why: NoticeReason
  readonly atMs: InstantMs
  readonly nest: NestId | null
  readonly person: PersonId | null
  readonly visit: number | null
  readonly request: RequestId | null
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
    readonly usesStartTap: boolean
    /** Between the day's closing and the next opening. */
    readonly isClosed: boolean
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
    readonly request: number
    readonly notice: number
  }
  readonly incubators: Readonly<Record<IncubatorId, Incubator>>
  readonly people: Readonly<Record<PersonId, Person>>
  readonly plans: Readonly<Record<PlanId, CarePlan>>
  readonly nests: Readonly<Record<NestId, Nest>>
  readonly birds: Readonly<Record<BirdId, Bird>>
  /** The open ones; a resolved one is history. */
  readonly requests: Readonly<Record<RequestId, Request>>
  readonly notices: readonly Notice[]
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
    usesStartTap: false,
    isClosed: false,
  },
  days: [],
  counters: { nest: 0, bird: 0, person: 0, incubator: 0, plan: 0, visit: 0, request: 0, notice: 0 },
  incubators: {},
  people: {},
  plans: {},
  nests: {},
  birds: {},
  requests: {},
  notices: [],
  setAside: [],
}
