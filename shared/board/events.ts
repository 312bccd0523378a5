// Every fact the journal can hold, as schemas. A type's meaning never changes: a new field is optional
// with a stated default, a new meaning is `v + 1` with one pure upcaster below, or a new name.

import { z } from 'zod'
import { broodEvents } from './broodEvents.ts'
import { roomEvents } from './roomEvents.ts'
import { roundEvents } from './roundEvents.ts'

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
