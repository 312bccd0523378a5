// What every event has in common: its type, its version, and the few shapes several of them use.

import { z } from 'zod'
import { wordMax } from './constants.ts'

/** One kind of event, at version 1. */
export const event = <Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) =>
  z.strictObject({ type: z.literal(type), v: z.literal(1), ...shape })

/** Why somebody did a thing, in their words. */
export const reason = z.string().min(1).max(wordMax)

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
export const mark = z.enum(marks)
