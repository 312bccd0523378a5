// Every fact the journal can hold, as schemas. A type's meaning never changes: a new field is optional
// with a stated default, a new meaning is `v + 1` with one pure upcaster below, or a new name.

import { z } from 'zod'
import {
  birdsPerNestMax,
  crops,
  fluidRoutes,
  nameMax,
  noticeReasons,
  requestKinds,
  roles,
  signOffs,
  wordMax,
} from './constants.ts'
import {
  amount,
  answer,
  band,
  birdId,
  birdList,
  carePlan,
  dayWindow,
  hold,
  incubatorId,
  instant,
  label,
  nestId,
  notKnownWhich,
  personId,
  planId,
  privateRef,
  requestId,
  roomId,
  visitNo,
  word,
} from './parts.ts'

const event = <Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) =>
  z.strictObject({ type: z.literal(type), v: z.literal(1), ...shape })

const reason = z.string().min(1).max(wordMax)

/** One bird's part in a visit; `intervalMs` is the interval in force, kept because plans change. */
const feedAnswer = answer.extend({ intervalMs: z.int().min(0) })

/** What is odd about a record, for the lead to see; it never refuses one. */
export const marks = [
  'notOnShift',
  'notSignedOff',
  'heldBird',
  'settlingBird',
  'timeBounded',
  'tooQuick',
  'mentorAway',
] as const
const mark = z.enum(marks)

const roomEvents = [
  event('RoomFounded', {
    room: roomId,
    season: z.string().regex(/^\d{4}$/),
    title: z.string().min(1).max(nameMax),
    zone: z.string().min(1).max(64),
    opensMinute: z.int().min(0).max(1440),
    closesMinute: z.int().min(0).max(1440),
    civilOffsetMs: z.int(),
    day: dayWindow,
  }),
  event('RoomOpened', { atMs: instant }),
  event('DayOpened', { day: dayWindow }),
  event('DayClosed', { atMs: instant }),
  event('CivilOffsetChanged', { offsetMs: z.int(), day: dayWindow }),
  event('PersonAdded', {
    person: personId,
    role: z.enum(roles),
    signOffs: z.array(z.enum(signOffs)),
    name: privateRef,
  }),
  event('SignOffsSet', { person: personId, signOffs: z.array(z.enum(signOffs)) }),
  event('PersonRemoved', { person: personId }),
  event('IncubatorAdded', { incubator: incubatorId, label }),
  event('PlanSet', { plan: carePlan, replaces: planId.optional() }),
  event('ShiftBegun', { person: personId, atMs: instant }),
  event('ShiftEnded', { person: personId, atMs: instant }),
  event('BreakBegun', { person: personId, atMs: instant, backAtMs: instant.optional() }),
  event('BreakEnded', { person: personId, atMs: instant }),
  event('MentorSet', { person: personId, mentor: personId.nullable() }),
  event('RoomSet', { usesStartTap: z.boolean() }),
  /** No screen this person is signed in on has been heard for a minute; and one is heard again. */
  event('PersonUnreachable', { person: personId, atMs: instant }),
  event('PersonReachable', { person: personId, atMs: instant }),
  /** Said to whoever leads, once, and to nobody else. */
  event('LeadTold', {
    no: visitNo,
    why: z.enum(noticeReasons),
    atMs: instant,
    nest: nestId.optional(),
    person: personId.optional(),
    visit: visitNo.optional(),
    request: requestId.optional(),
  }),
  event('NoticeSeen', { no: visitNo, by: personId, atMs: instant }),
] as const

const broodEvents = [
  event('NestOpened', {
    nest: nestId,
    label,
    incubator: incubatorId,
    isQuarantined: z.boolean(),
    note: privateRef.optional(),
    birds: z
      .array(
        z.strictObject({
          id: birdId,
          band,
          species: z.string().nullable(),
          size: z.string().max(12).optional(),
          plan: planId.nullable(),
        }),
      )
      .min(1)
      .max(birdsPerNestMax),
    atMs: instant,
    /** Present where the birds must be warmed and looked at before anyone feeds them. */
    lookDueAtMs: instant.optional(),
  }),
  event('ArrivalReleased', { birds: birdList, plan: planId, by: personId, atMs: instant }),
  event('NestMoved', { nest: nestId, incubator: incubatorId, by: personId, atMs: instant }),
  event('BirdMoved', { bird: birdId, nest: nestId, by: personId, atMs: instant }),
  event('BirdsShort', {
    nest: nestId,
    no: visitNo,
    missing: z.int().min(1).max(birdsPerNestMax),
    by: personId,
    atMs: instant,
  }),
  event('BirdsFound', { nest: nestId, by: personId, atMs: instant }),
  event('RequestRaised', {
    request: requestId,
    kind: z.enum(requestKinds),
    /** Two refusals running, the clock after an arrival's fluids, or a person. */
    why: z.enum(['refusedTwice', 'noDroppings', 'byHand']),
    nest: nestId.nullable(),
    bird: birdId.nullable(),
    /** Who called; null where the board did. */
    by: personId.nullable(),
    atMs: instant,
    /** The last visit it rests on, so that the same refusals raise it once. */
    visit: visitNo.optional(),
    note: privateRef.optional(),
  }),
  event('RequestTaken', { request: requestId, person: personId, atMs: instant }),
  event('RequestDeclined', { request: requestId, person: personId, atMs: instant }),
  event('RequestResolved', {
    request: requestId,
    by: personId,
    atMs: instant,
    note: privateRef.optional(),
  }),
  event('HoldSet', { nest: nestId, bird: birdId.optional(), hold }),
  event('HoldLifted', {
    nest: nestId,
    bird: birdId.optional(),
    by: personId,
    atMs: instant,
    why: reason,
  }),
  event('BirdSeen', {
    bird: birdId,
    by: personId,
    atMs: instant,
    signs: z.array(word),
    droppings: z.enum(['seen', 'none', 'notLooked']),
    note: privateRef.optional(),
    /** The next look at a bird still settling; absent for any other. */
    lookDueAtMs: instant.optional(),
  }),
  event('Weighed', { bird: birdId, by: personId, atMs: instant, massMg: z.int() }),
  event('IncubatorRead', {
    incubator: incubatorId,
    atMs: instant,
    tempDeciC: z.int(),
    humidityPercent: z.int().optional(),
  }),
  event('FluidsGiven', {
    bird: birdId,
    by: personId,
    atMs: instant,
    fluid: word,
    route: z.enum(fluidRoutes),
    given: amount,
    isWarmed: z.boolean(),
    site: word.optional(),
    marks: z.array(mark),
  }),
] as const

const roundEvents = [
  event('NestClaimed', {
    nest: nestId,
    claimNo: visitNo,
    person: personId,
    birds: birdList,
    atMs: instant,
    startedAtMs: instant,
    startIs: z.enum(['estimated', 'tapped']),
    leaseEndsAtMs: instant,
    extra: z.strictObject({ birds: birdList, reason, afterFeed: visitNo }).optional(),
  }),
  event('OfferMade', {
    nest: nestId,
    person: personId,
    /** The lead who asked; null where the board did. */
    by: personId.nullable(),
    atMs: instant,
    endsAtMs: instant,
  }),
  event('OfferEnded', {
    nest: nestId,
    person: personId,
    how: z.enum(['taken', 'declined', 'unanswered', 'over']),
    atMs: instant,
  }),
  event('LeaseExtended', { nest: nestId, claimNo: visitNo, leaseEndsAtMs: instant }),
  event('FeedStarted', {
    nest: nestId,
    claimNo: visitNo,
    startedAtMs: instant,
    leaseEndsAtMs: instant,
  }),
  event('RoundRecorded', {
    nest: nestId,
    no: visitNo,
    person: personId,
    atMs: instant,
    startedAtMs: instant,
    standing: z.enum(['current', 'late', 'unclaimed']),
    isSaid: z.boolean(),
    answers: z.array(feedAnswer).min(1).max(birdsPerNestMax),
    back: z.int().min(0).optional(),
    door: z.enum(['shut', 'notSeen']).optional(),
    marks: z.array(mark),
    extraAfter: visitNo.optional(),
    notKnownWhich: notKnownWhich.optional(),
  }),
  /** The record was of another nest: it no longer counts here, and stands there under `toNo`. */
  event('RoundMoved', {
    nest: nestId,
    no: visitNo,
    by: personId,
    atMs: instant,
    reason,
    toNest: nestId,
    toNo: visitNo,
  }),
  event('RoundCorrected', {
    nest: nestId,
    no: visitNo,
    by: personId,
    atMs: instant,
    answers: z.array(answer).min(1).max(birdsPerNestMax),
    reason,
  }),
  event('RoundTakenBack', { nest: nestId, no: visitNo, by: personId, atMs: instant }),
  event('ClaimBirdsStruck', { nest: nestId, claimNo: visitNo, birds: birdList }),
  event('ClaimEnded', {
    nest: nestId,
    claimNo: visitNo,
    how: z.enum(['fed', 'partly', 'notFed', 'givenBack', 'calledOff', 'lapsed']),
    atMs: instant,
  }),
  /** Tells the holder to stop and look: the nest was held, or another person's record came in. */
  event('StopCalled', {
    nest: nestId,
    claimNo: visitNo,
    why: z.enum(['held', 'fedByOther', 'perhapsFed']),
  }),
  event('DoubtRaised', {
    nest: nestId,
    no: visitNo,
    kind: z.enum(['silent', 'setAside', 'twice']),
    /** Who is asked; null puts the question to the lead. */
    owner: personId.nullable(),
    aboutAtMs: instant,
    raisedAtMs: instant,
    birds: birdList,
    /** The two records that lie too close together, where that is the doubt. */
    pair: z.tuple([visitNo, visitNo]).optional(),
  }),
  event('DoubtShrunk', { nest: nestId, no: visitNo, birds: birdList }),
  event('DoubtEnded', {
    nest: nestId,
    no: visitNo,
    how: z.enum(['recorded', 'said', 'neverAnswered', 'takenBack', 'looked', 'notTwice']),
    said: z.enum(['all', 'some', 'none']).optional(),
  }),
  event('BirdsLooked', {
    nest: nestId,
    by: personId,
    atMs: instant,
    looks: z
      .array(
        z.strictObject({
          bird: birdId,
          crop: z.enum(crops),
          /** A full crop stands for a feed at the latest doubtful time; the count of feeds is untouched. */
          fullSinceMs: instant.optional(),
          /** An empty crop makes the bird due from the start of the visit that found it. */
          emptyFromMs: instant.optional(),
        }),
      )
      .min(1)
      .max(birdsPerNestMax),
  }),
  /** A report that could not be applied, kept whole for review. */
  event('ReportSetAside', {
    by: personId,
    atMs: instant,
    why: z.enum([
      'birdUnknown',
      'nestUnknown',
      'personRemoved',
      'roundUnknown',
      'birdGone',
      'incubatorUnknown',
      'boardFull',
    ]),
    nest: nestId.optional(),
    body: z.record(z.string(), z.json()),
  }),
] as const

export const eventSchema = z.discriminatedUnion('type', [
  ...roomEvents,
  ...broodEvents,
  ...roundEvents,
])
export type RoomEvent = z.infer<typeof eventSchema>
export type EventType = RoomEvent['type']
export type EventOf<Type extends EventType> = Extract<RoomEvent, { type: Type }>

/** Old shapes lifted to today's, one pure step each, keyed `Type@v`. Empty while every event is at v 1. */
const upcasters: Readonly<Record<string, (old: unknown) => unknown>> = {}

/** What every event says of itself. Built once: making a schema takes far longer than using it. */
const dated = z.array(z.looseObject({ type: z.string(), v: z.int() }))

/**
 * The events of one record, checked and lifted.
 * Throws (a ZodError) on a kind or version this program does not know: an older reader must refuse a
 * newer file rather than guess at it.
 */
export function readEvents(raw: unknown): readonly RoomEvent[] {
  return dated
    .parse(raw)
    .map((old) => eventSchema.parse(upcasters[`${old.type}@${old.v}`]?.(old) ?? old))
}
