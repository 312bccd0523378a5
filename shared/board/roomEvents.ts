// What happens to the room itself: its hours, its people and their shifts, what it works with, and what
// the lead is told.

import { z } from 'zod'
import { nameMax, noticeReasons, roles, signOffs } from './constants.ts'
import { event } from './eventShape.ts'
import {
  carePlan,
  dayWindow,
  incubatorId,
  instant,
  label,
  nestId,
  personId,
  planId,
  privateRef,
  requestId,
  roomId,
  visitNo,
} from './parts.ts'

export const roomEvents = [
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
