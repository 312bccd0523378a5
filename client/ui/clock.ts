// Times as people in the room read them: the room's clock plus its civil offset, in the room's zone.
// The rules never format a time; this is the only file of the browser that does.

import type { InstantMs, LengthMs } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'

type Room = Pick<Board['room'], 'zone' | 'civilOffsetMs'>

/** A page shows one room, so one zone; a second would be another page. */
let known: { readonly zone: string; readonly format: Intl.DateTimeFormat } | null = null

function formatOf(zone: string): Intl.DateTimeFormat {
  if (known?.zone === zone) return known.format
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  })
  known = { zone, format }
  return format
}

/** "09:05" in the room's zone, for an instant of the room's clock. */
export const clockTime = (room: Room, atMs: InstantMs): string =>
  formatOf(room.zone).format(atMs + room.civilOffsetMs)

/** Whole minutes gone by, never below none. */
export const wholeMinutes = (lengthMs: LengthMs): number =>
  Math.max(0, Math.floor(lengthMs / minuteMs))
