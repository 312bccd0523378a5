// What happens to broods and birds beside their feeds: they come, are moved, held, looked at, weighed
// and given fluids; somebody is called for them.

import { z } from 'zod'
import { birdsPerNestMax, fluidRoutes, requestKinds } from './constants.ts'
import { event, mark, reason } from './eventShape.ts'
import {
  amount,
  band,
  birdId,
  birdList,
  hold,
  incubatorId,
  instant,
  label,
  nestId,
  personId,
  planId,
  privateRef,
  requestId,
  visitNo,
  word,
} from './parts.ts'

export const broodEvents = [
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
