// The small shapes that commands, events and the board share, declared once as schemas. Amounts and
// masses are whole; ids are letters and digits only, so none can name a part of a JavaScript object.

import { z } from 'zod'
import type {
  Amount,
  BirdId,
  IncubatorId,
  InstantMs,
  NestId,
  PersonId,
  PlanId,
  PrivateId,
  RequestId,
} from '../base/values.ts'
import {
  birdsPerNestMax,
  labelMax,
  notFedReasons,
  outcomes,
  techniques,
  wordMax,
} from './constants.ts'

const id = <T extends string>(letter: string) =>
  z.string().regex(new RegExp(`^${letter}[1-9][0-9]{0,8}$`)) as unknown as z.ZodType<T>

export const nestId = id<NestId>('n')
export const birdId = id<BirdId>('b')
export const personId = id<PersonId>('p')
export const incubatorId = id<IncubatorId>('i')
export const planId = id<PlanId>('c')
export const privateId = id<PrivateId>('x')
export const requestId = id<RequestId>('r')

/** An outbox's number line: the device's id, and a letter where a device keeps more than one. */
export const laneId = z.string().regex(/^d[1-9][0-9]{0,8}[a-z]?$/)
export const roomId = z.string().regex(/^[a-z][a-z0-9-]{0,30}$/)

const wholeMax = Number.MAX_SAFE_INTEGER
/** Instants lie between 1970 and the year 9999. */
export const instant: z.ZodType<InstantMs> = z.int().min(0).max(253_402_300_799_999)
export const visitNo = z.int().min(1).max(wholeMax)

export const word = z.string().min(1).max(wordMax)
export const label = z
  .string()
  .min(1)
  .max(labelMax)
  .regex(/^[\p{L}\p{N}]+$/u)
/** A leg band or colour mark, said as one word; null where a bird is not marked. */
export const band = z.string().min(1).max(12).nullable()
export const birdList = z.array(birdId).min(1).max(birdsPerNestMax)

/** At most one litre, 10,000 pieces or 1 kg: beyond that a finger slipped. */
export const amount: z.ZodType<Amount> = z.discriminatedUnion('unit', [
  z.strictObject({ unit: z.literal('uL'), n: z.int().min(0).max(1_000_000) }),
  z.strictObject({ unit: z.literal('pieces'), n: z.int().min(0).max(10_000) }),
  z.strictObject({ unit: z.literal('mg'), n: z.int().min(0).max(1_000_000) }),
])

/** `planned` was shown and left untouched, so it feeds no sum; `measured` was entered by a person. */
export const givenAmount = z.strictObject({ amount, is: z.enum(['planned', 'measured']) })
export type GivenAmount = z.infer<typeof givenAmount>

export const answer = z.strictObject({
  bird: birdId,
  outcome: z.enum(outcomes),
  reason: z.enum(notFedReasons).optional(),
  given: givenAmount.optional(),
})
/** What one bird did at one visit, as a person said it. */
export type Answer = z.infer<typeof answer>

/**
 * So many birds of the visit did this and nobody knows which: an unmarked brood. The birds themselves
 * are answered as having eaten, and at half the interval somebody looks for the hungry one.
 */
export const notKnownWhich = z.strictObject({
  outcome: z.enum(['some', 'refused', 'notFed']),
  count: z.int().min(1).max(birdsPerNestMax),
})
export type NotKnownWhich = z.infer<typeof notKnownWhich>

const minuteOfDay = z
  .int()
  .min(0)
  .max(24 * 60)
export const timing = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('every'), intervalMs: z.int().min(300_000).max(43_200_000) }),
  z.strictObject({ type: z.literal('at'), minutesOfDay: z.array(minuteOfDay).min(1).max(24) }),
])

export const carePlan = z.strictObject({
  id: planId,
  label: word,
  technique: z.enum(techniques),
  timing,
  /** How much of the interval a feed may come early, in percent; 0 where a crop must empty first. */
  earlyPercent: z.int().min(0).max(50),
  planned: amount.nullable(),
  cap: amount.nullable(),
  source: z.string().min(1).max(200),
})
export type CarePlan = z.infer<typeof carePlan>

export const hold = z.strictObject({
  reason: word,
  by: personId,
  setAtMs: instant,
  lookAgainAtMs: instant,
})
export type Hold = z.infer<typeof hold>

/** One feeding day as instants, written when it opens so that no rule needs a time zone. */
export const dayWindow = z.strictObject({
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  opensAtMs: instant,
  closesAtMs: instant,
  nextOpensAtMs: instant,
  /** Where the clocks change before the next opening: from when, and by how much. */
  clockChange: z.strictObject({ atMs: instant, byMs: z.int() }).optional(),
})
export type DayWindow = z.infer<typeof dayWindow>

/** Where a name or a note stands in the private file, and the salted hash that proves it unchanged. */
export const privateRef = z.strictObject({
  id: privateId,
  hash: z.string().regex(/^[0-9a-f]{64}$/),
})
export type PrivateRef = z.infer<typeof privateRef>
