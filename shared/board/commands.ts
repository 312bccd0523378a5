// Every order a person can give, as schemas. An ask may be rejected and is never queued; a report says
// what a person did or saw and is never rejected for the state of the room. Which is which, and who
// may ask, stands in `rights.ts`. Field names never change their meaning: a new one is optional.

import { z } from 'zod'
import {
  birdsPerNestMax,
  crops,
  doubtsPerNestMax,
  fluidRoutes,
  nameMax,
  noteMax,
  roles,
  signOffs,
} from './constants.ts'
import {
  amount,
  answer,
  band,
  birdId,
  birdList,
  carePlan,
  incubatorId,
  instant,
  label,
  nestId,
  notKnownWhich,
  personId,
  planId,
  requestId,
  visitNo,
  word,
} from './parts.ts'

const command = <Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) =>
  z.strictObject({ type: z.literal(type), v: z.literal(1), ...shape })

/** Text that must not reach board or journal; the server swaps it for a reference before deciding. */
const privateText = z.strictObject({
  name: z.string().min(1).max(nameMax).optional(),
  note: z.string().min(1).max(noteMax).optional(),
})

const asks = [
  command('ClaimNest', {
    nest: nestId,
    /** Doubts this person has been shown; any other open one is a reason to refuse. */
    seenDoubts: z.array(visitNo).max(doubtsPerNestMax).optional(),
    sureEarly: z.literal(true).optional(),
    extra: z.strictObject({ birds: birdList, reason: word, afterFeed: visitNo }).optional(),
  }),
  command('GiveBack', { nest: nestId, claimNo: visitNo }),
  command('MoreTime', { nest: nestId, claimNo: visitNo }),
  /** Not this nest, please: the next person is asked. */
  command('DeclineOffer', { nest: nestId }),
  /** A lead asks one person to take a nest; it stands as long as an offer the board makes itself. */
  command('OfferNest', { nest: nestId, person: personId }),
  command('TakeRequest', { request: requestId }),
  /** I cannot: nobody is asked twice, and one who had taken it puts it back. */
  command('DeclineRequest', { request: requestId }),
  command('ResolveRequest', { request: requestId, private: privateText.optional() }),
  /** The lead has read a notice; it goes from every lead's screen. */
  command('Acknowledge', { notice: visitNo }),
  command('BeginShift', {}),
  command('EndShift', {}),
  command('BeginBreak', { backAtMs: instant.optional() }),
  command('EndBreak', {}),
  command('SetHold', { nest: nestId, reason: word, lookAgainAtMs: instant }),
  command('LiftHold', { nest: nestId, bird: birdId.optional(), whyLifted: word }),
  /** Lets warmed birds be fed, under the plan named; a signed-off person's word, never the clock's. */
  command('ReleaseArrival', { birds: birdList, plan: planId }),
  command('AddPerson', {
    role: z.enum(roles),
    signOffs: z.array(z.enum(signOffs)).max(signOffs.length),
    private: privateText,
  }),
  command('SetSignOffs', {
    person: personId,
    signOffs: z.array(z.enum(signOffs)).max(signOffs.length),
  }),
  command('RemovePerson', { person: personId }),
  /** The person in the room who answers for a trainee; null where there is none any more. */
  command('SetMentor', { person: personId, mentor: personId.nullable() }),
  /** Whether a feeder taps "nest is open"; where they do, the time out of the heat is truly known. */
  command('SetRoom', { usesStartTap: z.boolean() }),
  command('MoveNest', { nest: nestId, incubator: incubatorId }),
  command('MoveBird', {
    bird: birdId,
    nest: nestId,
    /** Said where one of the two nests is quarantined: the bird then stands under the new nest's rule. */
    isQuarantineDecided: z.literal(true).optional(),
  }),
  command('AddIncubator', { label }),
  command('SetPlan', { plan: carePlan.omit({ id: true }), replaces: planId.optional() }),
  /** A brood put on the board by the lead with its plan known; unknown arrivals use BoxArrived. */
  command('AdmitBrood', {
    label,
    incubator: incubatorId,
    quarantined: z.boolean(),
    birds: z
      .array(z.strictObject({ band, species: z.string().regex(/^[A-Z]{4}$/), plan: planId }))
      .min(1)
      .max(birdsPerNestMax),
  }),
] as const

const reports = [
  command('StartFeed', { nest: nestId, claimNo: visitNo.optional() }),
  command('AnswerBirds', {
    nest: nestId,
    claimNo: visitNo.optional(),
    answers: z.array(answer).min(1).max(birdsPerNestMax),
    notKnownWhich: notKnownWhich.optional(),
    /** How many were counted back into the nest, and whether its door was seen shut. */
    back: z.int().min(0).max(birdsPerNestMax).optional(),
    door: z.enum(['shut', 'notSeen']).optional(),
    /** A time a person says from memory or paper; bounded by admission and arrival only. */
    saidAtMs: instant.optional(),
  }),
  command('CalledAway', { nest: nestId, claimNo: visitNo }),
  command('SayWhatHappened', {
    nest: nestId,
    claimNo: visitNo,
    said: z.discriminatedUnion('type', [
      z.strictObject({ type: z.literal('all') }),
      z.strictObject({ type: z.literal('some'), birds: birdList }),
      z.strictObject({ type: z.literal('none') }),
    ]),
  }),
  command('Looked', {
    nest: nestId,
    looks: z
      .array(z.strictObject({ bird: birdId, crop: z.enum(crops) }))
      .min(1)
      .max(birdsPerNestMax),
  }),
  command('TakeBackFeed', {
    nest: nestId,
    claimNo: visitNo,
    /** Asked when the record is older than ten seconds; unknown puts a doubt on the nest. */
    wasFed: z.enum(['yes', 'no', 'unknown']).optional(),
  }),
  command('CorrectFeed', {
    nest: nestId,
    claimNo: visitNo,
    /** What is true of this nest's birds; none where the whole record belongs to another nest. */
    answers: z.array(answer).max(birdsPerNestMax),
    reason: word,
    /** The nest that was really fed: "that was F, not E". */
    toNest: nestId.optional(),
  }),
  command('CallHelp', { nest: nestId.optional(), private: privateText.optional() }),
  /** The bird that was not counted back is in the nest again. */
  command('BirdFound', { nest: nestId }),
  command('HoldBird', { bird: birdId, reason: word, lookAgainAtMs: instant }),
  command('BoxArrived', {
    label,
    incubator: incubatorId,
    howMany: z.int().min(1).max(birdsPerNestMax),
    size: z.enum(['small', 'medium', 'large', 'unknown']),
    private: privateText.optional(),
  }),
  command('BirdSeen', {
    bird: birdId,
    signs: z.array(word).max(12),
    droppings: z.enum(['seen', 'none', 'notLooked']),
    private: privateText.optional(),
  }),
  command('Weighed', { bird: birdId, massMg: z.int().min(100).max(10_000_000) }),
  command('IncubatorRead', {
    incubator: incubatorId,
    /** Tenths of a degree Celsius. */
    tempDeciC: z.int().min(-400).max(800),
    humidityPercent: z.int().min(0).max(100).optional(),
  }),
  command('FluidsGiven', {
    bird: birdId,
    fluid: word,
    route: z.enum(fluidRoutes),
    given: amount,
    isWarmed: z.boolean(),
    site: word.optional(),
  }),
] as const

/** An ask that was sent and never answered keeps its number as this, so that nothing blocks the lane. */
const withdrawal = command('Withdrawn', {})

export const commandSchema = z.discriminatedUnion('type', [...asks, ...reports, withdrawal])
export type Command = z.infer<typeof commandSchema>
export type CommandType = Command['type']
export type CommandOf<Type extends CommandType> = Extract<Command, { type: Type }>
export type AskType = z.infer<(typeof asks)[number]>['type']
export type ReportType = z.infer<(typeof reports)[number]>['type']

/**
 * How long ago, on the device's own clock, a thing was noted and the visit it speaks of began, both
 * in real milliseconds before sending; `heardAtMs` is the room's time the device last
 * heard before the visit began, or before the note where no visit is spoken of.
 */
export const timingSchema = z.strictObject({
  notedAgoMs: z
    .int()
    .min(0)
    .max(31 * 86_400_000),
  startedAgoMs: z
    .int()
    .min(0)
    .max(31 * 86_400_000)
    .optional(),
  heardAtMs: instant,
})
export type Timing = z.infer<typeof timingSchema>
