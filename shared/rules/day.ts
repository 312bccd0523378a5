// The feeding day in instants: when it opens and closes by the room's own clock on the wall, with
// daylight saving both ways. The only file that knows time zones; what it finds is written into an
// event once, and every other rule works from the instants.

import { tzOffset } from '@date-fns/tz'
import { addDays, formatISO, parseISO } from 'date-fns'
import { type InstantMs, type LengthMs, minuteMs } from '../base/values.ts'
import type { DayWindow } from '../board/parts.ts'
import type { Board } from '../board/state.ts'

export type Hours = Pick<Board['room'], 'zone' | 'opensMinute' | 'closesMinute' | 'civilOffsetMs'>

const offsetMs = (zone: string, civilMs: InstantMs): LengthMs =>
  tzOffset(zone, new Date(civilMs)) * minuteMs

/** The civil date (yyyy-mm-dd) at an instant of civil time. Throws on an unknown zone. */
export function dateAt(zone: string, civilMs: InstantMs): string {
  const offset = offsetMs(zone, civilMs)
  if (Number.isNaN(offset)) throw new Error(`unknown time zone ${zone}`)
  return new Date(civilMs + offset).toISOString().slice(0, 10)
}

const dayAfter = (date: string, days: number): string =>
  formatISO(addDays(parseISO(date), days), { representation: 'date' })

/**
 * The instant at which clocks in `zone` show this minute of this date. A minute they skip gives the
 * next instant there is; one they show twice gives the first.
 */
export function instantAt(zone: string, date: string, minuteOfDay: number): InstantMs {
  const shownMs = new Date(`${date}T00:00:00.000Z`).getTime() + minuteOfDay * minuteMs
  const before = offsetMs(zone, shownMs - 24 * 60 * minuteMs)
  const after = offsetMs(zone, shownMs + 24 * 60 * minuteMs)
  const fits = [before, after].filter((offset) => offsetMs(zone, shownMs - offset) === offset)
  if (fits.length > 0) return shownMs - Math.max(...fits)
  return changeBetween(zone, shownMs - Math.max(before, after), shownMs - Math.min(before, after))
}

/** The instant inside this stretch from which the zone's later offset holds. */
function changeBetween(zone: string, fromMs: InstantMs, toMs: InstantMs): InstantMs {
  let low = fromMs
  let high = toMs
  const later = offsetMs(zone, toMs)
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (offsetMs(zone, middle) === later) high = middle
    else low = middle
  }
  return high
}

/** The feeding day of a civil date, on the room's clock. Equal opening and closing means round the clock. */
export function dayWindow(hours: Hours, date: string): DayWindow {
  const { zone, opensMinute, closesMinute, civilOffsetMs } = hours
  const closesDate = closesMinute <= opensMinute ? dayAfter(date, 1) : date
  const opensMs = instantAt(zone, date, opensMinute)
  const nextOpensMs = instantAt(zone, dayAfter(date, 1), opensMinute)
  const byMs = offsetMs(zone, nextOpensMs) - offsetMs(zone, opensMs)
  return {
    date,
    opensAtMs: opensMs - civilOffsetMs,
    closesAtMs: instantAt(zone, closesDate, closesMinute) - civilOffsetMs,
    nextOpensAtMs: nextOpensMs - civilOffsetMs,
    ...(byMs === 0
      ? {}
      : { clockChange: { atMs: changeBetween(zone, opensMs, nextOpensMs) - civilOffsetMs, byMs } }),
  }
}

/** The feeding day that opened last before this instant of the room's clock. */
export function dayAt(hours: Hours, nowMs: InstantMs): DayWindow {
  const date = dateAt(hours.zone, nowMs + hours.civilOffsetMs)
  const day = dayWindow(hours, date)
  return day.opensAtMs <= nowMs ? day : dayWindow(hours, dayAfter(date, -1))
}
