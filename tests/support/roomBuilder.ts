// The past of an invented room, written as the events that made it, so that a test can say in a line
// what had happened by when. Times are clock times of one day in the room's zone; no rule is asked
// here and nothing is decided: a test may build pasts the rules themselves would never write.

import {
  type BirdId,
  dayMs,
  type IncubatorId,
  type InstantMs,
  type LengthMs,
  minuteMs,
  type NestId,
  type PersonId,
  type PlanId,
  type PrivateId,
} from '../../shared/base/values.ts'
import type { Outcome, Role, SignOff, Technique } from '../../shared/board/constants.ts'
import type { EventOf, RoomEvent } from '../../shared/board/events.ts'
import type { CarePlan, DayWindow } from '../../shared/board/parts.ts'

/** 'hh:mm' or 'hh:mm:ss', as the clock in the room shows it. */
export type Clock = `${number}:${number}` | `${number}:${number}:${number}`

/** A day in May, far from any change of the clocks; Pacific daylight time is UTC-7. */
export const roomDate = '2026-05-16'
export const roomZone = 'America/Los_Angeles'

/** The instant of a clock time on the room's day, or so many days after it. */
export const clock = (time: Clock, daysLater = 0): InstantMs =>
  Date.parse(`${roomDate}T${time}-07:00`) + daysLater * dayMs

export const nestOf = (n: number): NestId => `n${n}` as NestId
export const birdOf = (n: number): BirdId => `b${n}` as BirdId
export const personOf = (n: number): PersonId => `p${n}` as PersonId
export const incubatorOf = (n: number): IncubatorId => `i${n}` as IncubatorId
export const planOf = (n: number): PlanId => `c${n}` as PlanId

export const someHash = '0'.repeat(64)
export const privateRef = (n: number) => ({ id: `x${n}` as PrivateId, hash: someHash })

export type Hours = { readonly opens: Clock; readonly closes: Clock }

/** The feeding day so many days after the room's day, opening at the same clock time every day. */
export const dayOf = (hours: Hours, daysLater = 0): DayWindow => ({
  date: new Date(Date.parse(`${roomDate}T12:00Z`) + daysLater * dayMs).toISOString().slice(0, 10),
  opensAtMs: clock(hours.opens, daysLater),
  closesAtMs: clock(hours.closes, daysLater),
  nextOpensAtMs: clock(hours.opens, daysLater + 1),
})

const minuteOfDay = (time: Clock): number => (clock(time) - clock('00:00')) / minuteMs

/** A room founded long enough ago that no rule is still waiting for its first minute. */
export const founded = (hours: Hours): readonly RoomEvent[] => [
  {
    type: 'RoomFounded',
    v: 1,
    room: 'meadow',
    season: '2026',
    title: 'Meadow Lane nursery',
    zone: roomZone,
    opensMinute: minuteOfDay(hours.opens),
    closesMinute: minuteOfDay(hours.closes),
    civilOffsetMs: 0,
    day: dayOf(hours),
  },
  serverStarted('05:00'),
]

export const serverStarted = (at: Clock): RoomEvent => ({
  type: 'RoomOpened',
  v: 1,
  atMs: clock(at),
})

export const dayOpened = (hours: Hours, daysLater: number): RoomEvent => ({
  type: 'DayOpened',
  v: 1,
  day: dayOf(hours, daysLater),
})

export const incubator = (id: IncubatorId, label: string): RoomEvent => ({
  type: 'IncubatorAdded',
  v: 1,
  incubator: id,
  label,
})

const planSet = (plan: CarePlan): RoomEvent => ({ type: 'PlanSet', v: 1, plan })

type PlanDetails = { technique: Technique; earlyPercent: number }

/** A plan that feeds at an interval; the amounts play no part in any rule about time. */
export const planEvery = (id: PlanId, minutes: number, details: PlanDetails): RoomEvent =>
  planSet({
    id,
    label: `every ${minutes} min`,
    ...details,
    timing: { type: 'every', intervalMs: minutes * minuteMs },
    planned: { unit: 'uL', n: 400 },
    cap: null,
    source: 'invented for tests',
  })

/** A plan that feeds at clock times. */
export const planAt = (id: PlanId, times: readonly Clock[], details: PlanDetails): RoomEvent =>
  planSet({
    id,
    label: `at ${times.join(', ')}`,
    ...details,
    timing: { type: 'at', minutesOfDay: times.map(minuteOfDay) },
    planned: null,
    cap: null,
    source: 'invented for tests',
  })

export const person = (
  id: PersonId,
  role: Role,
  signOffs: readonly SignOff[] = ['gapeSyringe'],
): RoomEvent => ({
  type: 'PersonAdded',
  v: 1,
  person: id,
  role,
  signOffs: [...signOffs],
  name: privateRef(Number(id.slice(1))),
})

export const onShift = (id: PersonId, at: Clock = '06:30'): RoomEvent => ({
  type: 'ShiftBegun',
  v: 1,
  person: id,
  atMs: clock(at),
})

export const offShift = (id: PersonId, at: Clock): RoomEvent => ({
  type: 'ShiftEnded',
  v: 1,
  person: id,
  atMs: clock(at),
})

export const removed = (id: PersonId): RoomEvent => ({ type: 'PersonRemoved', v: 1, person: id })

type NestDetails = {
  readonly label: string
  readonly incubator: IncubatorId
  readonly birds: readonly { readonly id: BirdId; readonly plan: PlanId | null }[]
  readonly at?: Clock
  /** Given where the birds are still warming. */
  readonly lookDue?: Clock
}

export const nest = (id: NestId, details: NestDetails): RoomEvent => ({
  type: 'NestOpened',
  v: 1,
  nest: id,
  label: details.label,
  incubator: details.incubator,
  isQuarantined: false,
  birds: details.birds.map((bird) => ({ ...bird, band: bird.id, species: 'HOFI' })),
  atMs: clock(details.at ?? '06:00'),
  ...(details.lookDue ? { lookDueAtMs: clock(details.lookDue) } : {}),
})

export const released = (birds: readonly BirdId[], plan: PlanId, at: Clock): RoomEvent => ({
  type: 'ArrivalReleased',
  v: 1,
  birds: [...birds],
  plan,
  by: personOf(3),
  atMs: clock(at),
})

export type Visit = {
  readonly nest: NestId
  readonly no: number
  readonly by: PersonId
  readonly birds: readonly BirdId[]
  /** The start of the visit; it is recorded then too, unless `recorded` says later. */
  readonly at: Clock
  readonly recorded?: Clock
  readonly outcome?: Outcome
  readonly intervalMs?: LengthMs
}

export const round = (visit: Visit): EventOf<'RoundRecorded'> => ({
  type: 'RoundRecorded',
  v: 1,
  nest: visit.nest,
  no: visit.no,
  person: visit.by,
  atMs: clock(visit.recorded ?? visit.at),
  startedAtMs: clock(visit.at),
  standing: 'current',
  isSaid: false,
  answers: visit.birds.map((bird) => ({
    bird,
    outcome: visit.outcome ?? 'ate',
    intervalMs: visit.intervalMs ?? 30 * minuteMs,
  })),
  marks: [],
})

export type Claim = {
  readonly nest: NestId
  readonly no: number
  readonly by: PersonId
  readonly birds: readonly BirdId[]
  readonly at: Clock
  /** When the lease ends; far enough off not to matter unless a test says otherwise. */
  readonly until?: Clock
}

/** A claim whose nest has not been opened yet. */
export const claimed = (claim: Claim): RoomEvent => ({
  type: 'NestClaimed',
  v: 1,
  nest: claim.nest,
  claimNo: claim.no,
  person: claim.by,
  birds: [...claim.birds],
  atMs: clock(claim.at),
  startedAtMs: clock(claim.at),
  startIs: 'estimated',
  leaseEndsAtMs: clock(claim.until ?? '20:59'),
})

/** A claim made and its nest opened at the same instant. */
export const opened = (claim: Claim): readonly RoomEvent[] => [
  claimed(claim),
  {
    type: 'FeedStarted',
    v: 1,
    nest: claim.nest,
    claimNo: claim.no,
    startedAtMs: clock(claim.at),
    leaseEndsAtMs: clock(claim.until ?? '20:59'),
  },
]

export const ended = (
  claim: Pick<Claim, 'nest' | 'no'>,
  how: EventOf<'ClaimEnded'>['how'],
  at: Clock,
): RoomEvent => ({
  type: 'ClaimEnded',
  v: 1,
  nest: claim.nest,
  claimNo: claim.no,
  how,
  atMs: clock(at),
})

export type Silence = {
  readonly nest: NestId
  readonly no: number
  readonly owner: PersonId | null
  readonly birds: readonly BirdId[]
  readonly about: Clock
  readonly raised: Clock
}

export const doubt = (silence: Silence): RoomEvent => ({
  type: 'DoubtRaised',
  v: 1,
  nest: silence.nest,
  no: silence.no,
  kind: 'silent',
  owner: silence.owner,
  aboutAtMs: clock(silence.about),
  raisedAtMs: clock(silence.raised),
  birds: [...silence.birds],
})

/** A claim that ran out with nothing recorded, and the doubt it left. */
export const lapsed = (claim: Claim, at: Clock): readonly RoomEvent[] => [
  ...opened(claim),
  ended(claim, 'lapsed', at),
  doubt({ ...claim, owner: claim.by, about: claim.at, raised: at }),
]

type HoldDetails = { readonly by: PersonId; readonly at: Clock; readonly lookAgain: Clock }

export const held = (
  what: { readonly nest: NestId; readonly bird?: BirdId },
  details: HoldDetails,
): RoomEvent => ({
  type: 'HoldSet',
  v: 1,
  ...what,
  hold: {
    reason: 'limping',
    by: details.by,
    setAtMs: clock(details.at),
    lookAgainAtMs: clock(details.lookAgain),
  },
})
