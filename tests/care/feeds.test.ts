// Counts of feeds a day, and feeding toward a daily share of body weight.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { perFeedMg } from '../../shared/care/feedByTarget.ts'
import { feedsInADay } from '../../shared/care/feedsInADay.ts'
import { feedsChecks, targetCheck } from './handbook.data.ts'

/** The same days every run. */
const drawn = { seed: 14, numRuns: 500 }

const nonsense = [0, -1, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]

describe('feeds in a day', () => {
  it.each(feedsChecks)('$hours h every $intervalMin min are $feeds feeds ($source)', (check) => {
    expect(feedsInADay(check.hours, check.intervalMin)).toEqual({ ok: true, value: check.feeds })
  })

  it('counts one feed where the interval is longer than the day', () => {
    expect(feedsInADay(1, 61)).toEqual({ ok: true, value: 1 })
  })

  it('does not lose the last feed to a fraction of an hour', () => {
    for (let step = 1; step <= 90; step += 1) {
      for (let times = 1; times <= 16; times += 1) {
        expect(feedsInADay((step * times) / 60, step)).toEqual({ ok: true, value: times + 1 })
      }
    }
  })

  it('never has a feed after the end, nor room for one more before it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1_440 }),
        fc.integer({ min: 1, max: 600 }),
        (day, step) => {
          const feeds = feedsInADay(day / 60, step)
          if (!feeds.ok) throw new Error(feeds.error.code)
          expect((feeds.value - 1) * step).toBeLessThanOrEqual(day)
          expect(feeds.value * step).toBeGreaterThan(day)
        },
      ),
      drawn,
    )
  })

  it.each([...nonsense, 24.01])('refuses %s as hours of a day', (hours) => {
    expect(feedsInADay(hours, 30)).toEqual({ ok: false, error: { code: 'NotHoursOfADay' } })
  })

  it.each([...nonsense, 1e-9])('refuses %s as an interval', (intervalMin) => {
    expect(feedsInADay(14, intervalMin)).toEqual({ ok: false, error: { code: 'NotAnInterval' } })
  })
})

describe('feeding toward a daily share', () => {
  it(`10 g at 35 % over 7 feeds is 0.5 g a feed (${targetCheck.source})`, () => {
    expect(perFeedMg(targetCheck)).toEqual({ ok: true, value: targetCheck.perFeedMg })
  })

  it('gives whole milligrams whose sum never passes the share', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500_000 }),
        fc.integer({ min: 1, max: 100 }),
        fc.integer({ min: 1, max: 100 }),
        (massMg, dailySharePercent, feeds) => {
          const each = perFeedMg({ massMg, dailySharePercent, feeds })
          if (!each.ok) throw new Error(each.error.code)
          expect(Number.isSafeInteger(each.value)).toBe(true)
          expect(each.value * feeds * 100).toBeLessThanOrEqual(massMg * dailySharePercent)
        },
      ),
      drawn,
    )
  })

  it.each(nonsense)('refuses %s as a mass, a share or a count', (value) => {
    expect(perFeedMg({ ...targetCheck, massMg: value })).toEqual({
      ok: false,
      error: { code: 'NotAMass' },
    })
    expect(perFeedMg({ ...targetCheck, dailySharePercent: value })).toEqual({
      ok: false,
      error: { code: 'NotAShare' },
    })
    expect(perFeedMg({ ...targetCheck, feeds: value })).toEqual({
      ok: false,
      error: { code: 'NotACountOfFeeds' },
    })
  })
})
