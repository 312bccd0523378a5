// One step of a random walk, as numbers drawn by fast-check: what kind of thing is said, after how long,
// by whom and about which nest. What it means is read against the board as it stands, in walkOrders.ts.

import fc from 'fast-check'
import { hourMs, minuteMs, secondMs } from '../../shared/base/values.ts'
import { everyone } from './smallRoom.ts'

/** The commoner kinds stand here more than once. */
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
  'CorrectFeed',
  'DeclineOffer',
  'DeclineOffer',
  'OfferNest',
  ...Array<'TakeRequest'>(4).fill('TakeRequest'),
  'DeclineRequest',
  'ResolveRequest',
  'ResolveRequest',
  'Acknowledge',
  'CallHelp',
  'BirdFound',
  'SetMentor',
  'SetRoom',
  'MoveNest',
  'MoveBird',
  'MoveBird',
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
  'presence',
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
