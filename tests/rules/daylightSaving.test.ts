// Opening hours on the days the clocks change, in two zones, and days opened by the clock alone. Every
// expected instant is written out from the law's wording, never asked of a library:
//   Pacific time is UTC-8, and UTC-7 from 02:00 standard time on the second Sunday of March until 02:00
//   daylight time on the first Sunday of November (15 USC 260a; 15 USC 261, 263 for the zone).
//   The United Kingdom is at UTC, and UTC+1 from 01:00 UTC on the last Sunday of March until 01:00 UTC on
//   the last Sunday of October (Directive 2000/84/EC, kept by the Summer Time Order 2002, SI 2002/262).

import { describe, expect, it } from 'vitest'
import { hourMs, minuteMs } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { civilOffsetEvents, openingEvents } from '../../shared/rules/founding.ts'
import { decideTime, nextWakeAtMs } from '../../shared/rules/time.ts'
import { letTimePass } from '../support/given.ts'
import { foundedRoom, iso, type Opening, seven, utc, type Zone } from './foundedRoom.ts'

const days = (events: readonly RoomEvent[]) =>
  events.flatMap((event) => (event.type === 'DayOpened' ? [event.day] : []))

/** The days a room opens by itself when nobody touches it, looked at every minute. */
function daysOpened(opening: Opening, untilMs: number) {
  let board = foundedRoom(opening)
  const opened: { atMs: number; date: string }[] = []
  for (let nowMs = opening.nowMs; nowMs <= untilMs; nowMs += minuteMs) {
    const passed = letTimePass(board, nowMs)
    board = passed.board
    opened.push(...days(passed.events).map(({ date }) => ({ atMs: nowMs, date })))
  }
  return opened.map(({ atMs, date }) => [date, iso(atMs)])
}

type Change = { zone: Zone; day: string; noon: string; opens: string; closes: string; next: string }

/** Open from 07:00 to 21:00 by the clock on the wall. */
const sevenToNine: readonly Change[] = [
  {
    zone: 'America/Los_Angeles',
    day: '2026-03-07',
    noon: '2026-03-07T20:00:00Z',
    opens: '2026-03-07T15:00:00Z',
    closes: '2026-03-08T05:00:00Z',
    next: '2026-03-08T14:00:00Z',
  },
  {
    zone: 'America/Los_Angeles',
    day: '2026-03-08',
    noon: '2026-03-08T19:00:00Z',
    opens: '2026-03-08T14:00:00Z',
    closes: '2026-03-09T04:00:00Z',
    next: '2026-03-09T14:00:00Z',
  },
  {
    zone: 'America/Los_Angeles',
    day: '2026-10-31',
    noon: '2026-10-31T19:00:00Z',
    opens: '2026-10-31T14:00:00Z',
    closes: '2026-11-01T04:00:00Z',
    next: '2026-11-01T15:00:00Z',
  },
  {
    zone: 'America/Los_Angeles',
    day: '2026-11-01',
    noon: '2026-11-01T20:00:00Z',
    opens: '2026-11-01T15:00:00Z',
    closes: '2026-11-02T05:00:00Z',
    next: '2026-11-02T15:00:00Z',
  },
  {
    zone: 'Europe/London',
    day: '2026-03-28',
    noon: '2026-03-28T12:00:00Z',
    opens: '2026-03-28T07:00:00Z',
    closes: '2026-03-28T21:00:00Z',
    next: '2026-03-29T06:00:00Z',
  },
  {
    zone: 'Europe/London',
    day: '2026-03-29',
    noon: '2026-03-29T11:00:00Z',
    opens: '2026-03-29T06:00:00Z',
    closes: '2026-03-29T20:00:00Z',
    next: '2026-03-30T06:00:00Z',
  },
  {
    zone: 'Europe/London',
    day: '2026-10-24',
    noon: '2026-10-24T11:00:00Z',
    opens: '2026-10-24T06:00:00Z',
    closes: '2026-10-24T20:00:00Z',
    next: '2026-10-25T07:00:00Z',
  },
  {
    zone: 'Europe/London',
    day: '2026-10-25',
    noon: '2026-10-25T12:00:00Z',
    opens: '2026-10-25T07:00:00Z',
    closes: '2026-10-25T21:00:00Z',
    next: '2026-10-26T07:00:00Z',
  },
]

describe.each(sevenToNine)('a room open from seven to nine, $zone, $day', (change) => {
  const { zone, day, noon, opens, closes, next } = change
  const window = foundedRoom({ zone, opensMinute: seven, nowMs: utc(noon) }).days.at(-1)

  it('opens, closes and opens again at these instants', () => {
    expect(window?.date).toBe(day)
    expect(iso(window?.opensAtMs ?? 0)).toBe(opens)
    expect(iso(window?.closesAtMs ?? 0)).toBe(closes)
    expect(iso(window?.nextOpensAtMs ?? 0)).toBe(next)
  })

  it('opens its next day by the clock alone, once, at the instant', () => {
    const board = foundedRoom({ zone, opensMinute: seven, nowMs: utc(noon) })
    const { board: closed } = letTimePass(board, utc(next) - 1)
    expect(closed.room.isClosed).toBe(true)
    expect(nextWakeAtMs(closed)).toBe(utc(next))
    expect(decideTime(closed, utc(next) - 1)).toEqual([])
    const { events, board: opened } = letTimePass(closed, utc(next))
    expect(days(events).map(({ opensAtMs }) => iso(opensAtMs))).toEqual([next])
    expect(decideTime(opened, utc(next) + hourMs)).toEqual([])
  })
})

type Odd = { zone: Zone; opensMinute: number; from: string; until: string; days: string[][] }

/** An opening time the wall clock skips happens at the next valid instant. */
const skipped: readonly Odd[] = [
  {
    zone: 'America/Los_Angeles',
    opensMinute: 150,
    from: '2026-03-07T20:00:00Z',
    until: '2026-03-09T20:00:00Z',
    days: [
      ['2026-03-08', '2026-03-08T10:00:00Z'],
      ['2026-03-09', '2026-03-09T09:30:00Z'],
    ],
  },
  {
    zone: 'Europe/London',
    opensMinute: 90,
    from: '2026-03-28T12:00:00Z',
    until: '2026-03-30T12:00:00Z',
    days: [
      ['2026-03-29', '2026-03-29T01:00:00Z'],
      ['2026-03-30', '2026-03-30T00:30:00Z'],
    ],
  },
]

/** An opening time the wall clock shows twice happens once, the first time. */
const repeated: readonly Odd[] = [
  {
    zone: 'America/Los_Angeles',
    opensMinute: 90,
    from: '2026-10-31T20:00:00Z',
    until: '2026-11-02T20:00:00Z',
    days: [
      ['2026-11-01', '2026-11-01T08:30:00Z'],
      ['2026-11-02', '2026-11-02T09:30:00Z'],
    ],
  },
  {
    zone: 'Europe/London',
    opensMinute: 90,
    from: '2026-10-24T12:00:00Z',
    until: '2026-10-26T12:00:00Z',
    days: [
      ['2026-10-25', '2026-10-25T00:30:00Z'],
      ['2026-10-26', '2026-10-26T01:30:00Z'],
    ],
  },
]

describe('an opening time that the clocks change over', () => {
  it.each([...skipped, ...repeated])('$zone, minute $opensMinute: $days.0.1', (odd) => {
    const opening = { zone: odd.zone, opensMinute: odd.opensMinute, nowMs: utc(odd.from) }
    expect(daysOpened(opening, utc(odd.until))).toEqual(odd.days)
  })

  it('is the same instant in a room founded on that very day', () => {
    const spring = foundedRoom({
      zone: 'America/Los_Angeles',
      opensMinute: 150,
      nowMs: utc('2026-03-08T19:00:00Z'),
    })
    expect(iso(spring.days.at(-1)?.opensAtMs ?? 0)).toBe('2026-03-08T10:00:00Z')
    const autumn = foundedRoom({
      zone: 'America/Los_Angeles',
      opensMinute: 90,
      nowMs: utc('2026-11-01T20:00:00Z'),
    })
    expect(iso(autumn.days.at(-1)?.opensAtMs ?? 0)).toBe('2026-11-01T08:30:00Z')
  })
})

describe('the day', () => {
  const london = { zone: 'Europe/London', opensMinute: seven } as const
  const board = foundedRoom({ ...london, nowMs: utc('2026-03-25T12:00:00Z') })

  it('opens though nobody was there for several, and once, for today', () => {
    const { events } = letTimePass(board, utc('2026-03-31T09:00:00Z'))
    expect(days(events)).toMatchObject([
      { date: '2026-03-31', opensAtMs: utc('2026-03-31T06:00:00Z') },
    ])
  })

  it('opens once after an outage over several openings', () => {
    const nowMs = utc('2026-03-31T09:00:00Z')
    const started = foldEvents(board, openingEvents(board, nowMs))
    expect(days(letTimePass(started, nowMs).events).map(({ date }) => date)).toEqual(['2026-03-31'])
  })

  it('is remembered for a few days only', () => {
    let passing = board
    for (let day = 0; day < 20; day += 1) {
      const nowMs = utc('2026-03-25T12:00:00Z') + day * 24 * hourMs
      passing = letTimePass(passing, nowMs).board
    }
    expect(passing.days.length).toBeLessThanOrEqual(3)
    expect(passing.days.at(-1)?.date).toBe('2026-04-13')
  })

  it('is today’s from its opening on in a room founded before that', () => {
    const early = foundedRoom({ ...london, nowMs: utc('2026-03-25T05:00:00Z') })
    const { board: opened } = letTimePass(early, utc('2026-03-25T07:00:00Z'))
    expect(opened.days.at(-1)).toMatchObject({
      date: '2026-03-25',
      opensAtMs: utc('2026-03-25T07:00:00Z'),
    })
  })
})

describe('civil time that differs from the room’s clock', () => {
  const london = { zone: 'Europe/London', opensMinute: seven } as const

  it('moves the opening against the room’s clock', () => {
    // The wall shows two hours more than the room's clock: seven on the wall is five on that clock.
    const ahead = foundedRoom({
      ...london,
      civilOffsetMs: 2 * hourMs,
      nowMs: utc('2026-01-15T10:00:00Z'),
    })
    expect(iso(ahead.days.at(-1)?.opensAtMs ?? 0)).toBe('2026-01-15T05:00:00Z')
  })

  it('changed by an event writes the hours of the day anew and touches nothing else', () => {
    const before = foundedRoom({ ...london, nowMs: utc('2026-01-15T10:00:00Z') })
    const events = civilOffsetEvents(before, 2 * hourMs, utc('2026-01-15T12:00:00Z'))
    expect(events).toMatchObject([
      {
        type: 'CivilOffsetChanged',
        offsetMs: 2 * hourMs,
        day: { date: '2026-01-15', opensAtMs: utc('2026-01-15T05:00:00Z') },
      },
    ])
    const after = foldEvents(before, events)
    expect({ ...after, room: null, days: null }).toEqual({ ...before, room: null, days: null })
    expect(after.days.at(-1)?.closesAtMs).toBe(utc('2026-01-15T19:00:00Z'))
  })
})
