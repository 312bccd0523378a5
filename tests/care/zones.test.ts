// The changeover instants derived a second time from the law's wording, and held against the zone
// tables that come with Node (ICU), so that the data other tests rest on is right by two ways.

import { describe, expect, it } from 'vitest'
import { type Changeover, type ChangeoverRule, changeovers } from './zones.data.ts'

const minuteMs = 60_000
const hourMs = 60 * minuteMs

/** The day of the month the rule's Sunday falls on. */
function sundayOf(year: number, { month, sunday }: ChangeoverRule): number {
  if (sunday === 'last') {
    const last = new Date(Date.UTC(year, month, 0))
    return last.getUTCDate() - last.getUTCDay()
  }
  const firstWeekday = new Date(Date.UTC(year, month - 1, 1)).getUTCDay()
  return 1 + ((7 - firstWeekday) % 7) + 7 * (sunday - 1)
}

function instantByLaw(year: number, { rule, offsetBeforeMin }: Changeover): number {
  const onTheHourMs = Date.UTC(year, rule.month - 1, sundayOf(year, rule), rule.hour)
  return rule.countedOn === 'utc' ? onTheHourMs : onTheHourMs - offsetBeforeMin * minuteMs
}

const formatOf = (zone: string) =>
  new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' })

/** One for each zone: making a formatter costs far more than using it. */
const formats = new Map(changeovers.map(({ zone }) => [zone as string, formatOf(zone)]))

/** What the wall clock reads, by ICU, as "2026-03-08 01:59". */
const wallClock = (zone: string, atMs: number): string =>
  formats.get(zone)?.format(atMs) ?? `no format for ${zone}`

const offsetByIcuMin = (zone: string, atMs: number): number =>
  (Date.parse(`${wallClock(zone, atMs).replace(' ', 'T')}:00Z`) - atMs) / minuteMs

describe.each(changeovers)('$zone, clocks $turn on $localDate ($source)', (change) => {
  const { zone, atMs, localDate, offsetBeforeMin, offsetAfterMin } = change

  it('is the instant the law’s wording gives', () => {
    expect(atMs).toBe(instantByLaw(2026, change))
  })

  it('is the instant at which ICU changes the offset', () => {
    expect(offsetByIcuMin(zone, atMs - minuteMs)).toBe(offsetBeforeMin)
    expect(offsetByIcuMin(zone, atMs)).toBe(offsetAfterMin)
  })

  it('reads on the wall as said', () => {
    expect(wallClock(zone, atMs)).toBe(`${localDate} ${change.localAfter}`)
    const unchangedMs = atMs + offsetBeforeMin * minuteMs
    expect(new Date(unchangedMs).toISOString().slice(0, 16)).toBe(
      `${localDate}T${change.localBefore}`,
    )
  })

  it('makes a day of 23 hours forward and 25 back', () => {
    const midnightMs = Date.parse(`${localDate}T00:00:00Z`) - offsetBeforeMin * minuteMs
    const lengthMs = (change.turn === 'forward' ? 23 : 25) * hourMs
    expect(wallClock(zone, midnightMs)).toBe(`${localDate} 00:00`)
    expect(wallClock(zone, midnightMs + lengthMs)).toMatch(/ 00:00$/)
  })
})

describe('the year 2026', () => {
  it.each(['America/Los_Angeles', 'Europe/London'] as const)(
    '%s has no other changeover',
    (zone) => {
      const seen: number[] = []
      const endMs = Date.UTC(2027, 0, 1)
      for (let atMs = Date.UTC(2026, 0, 1); atMs < endMs; atMs += hourMs) {
        if (offsetByIcuMin(zone, atMs) !== offsetByIcuMin(zone, atMs - hourMs)) seen.push(atMs)
      }
      expect(seen).toEqual(
        changeovers.filter((each) => each.zone === zone).map((each) => each.atMs),
      )
    },
  )
})
