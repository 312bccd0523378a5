import { describe, expect, it } from 'vitest'
import { clockTime, wholeMinutes } from '../../client/ui/clock.ts'
import { refusalWords } from '../../client/ui/refusalWords.ts'
import { amountWords, houseWords, type Say } from '../../client/ui/words.ts'
import type { BirdId, NestId, PersonId } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'

const say: Say = {
  time: (atMs) => clockTime({ zone: 'UTC', civilOffsetMs: 0 }, atMs),
  person: (person) => (person === 'p1' ? 'Ana' : 'Iris'),
  nest: () => 'F',
}
const at0910 = Date.UTC(2026, 4, 1, 9, 10)

describe('a refusal', () => {
  it('says who has the nest and since when', () => {
    const why = { code: 'NestTaken', person: 'p1' as PersonId, sinceMs: at0910 } as const
    expect(refusalWords(why, say)).toBe('Ana has it since 09:10.')
  })

  it('says each reason of a brood once', () => {
    const tooSoon = {
      type: 'tooSoon',
      readyAtMs: at0910 + 27 * minuteMs,
      fedAtMs: at0910,
      needs: 'extra',
    } as const
    const why = {
      code: 'NothingReady',
      birds: [
        { bird: 'b1' as BirdId, why: tooSoon },
        { bird: 'b2' as BirdId, why: tooSoon },
        { bird: 'b3' as BirdId, why: { type: 'held', reason: 'crop full' } },
      ],
    } as const
    expect(refusalWords(why, say)).toBe('Fed 09:10, may be fed from 09:37; on hold: crop full.')
  })

  it('names who has the sign-off', () => {
    const have = ['p1', 'p2'] as PersonId[]
    const needs = { type: 'needsSignOff', technique: 'cropTube', have } as const
    const why = { code: 'NothingReady', birds: [{ bird: 'b1' as BirdId, why: needs }] } as const
    expect(refusalWords(why, say)).toBe('Needs a sign-off (by crop tube): ask Ana or Iris.')
  })

  it('names the nest to finish first', () => {
    expect(refusalWords({ code: 'FinishFirst', nest: 'n1' as NestId }, say)).toBe(
      'Finish nest F first.',
    )
  })
})

describe('amounts', () => {
  it('are said in mL, g and pieces', () => {
    expect(amountWords({ unit: 'uL', n: 600 })).toBe('0.6 mL')
    expect(amountWords({ unit: 'uL', n: 1_050 })).toBe('1.05 mL')
    expect(amountWords({ unit: 'mg', n: 2_500 })).toBe('2.5 g')
    expect(amountWords({ unit: 'pieces', n: 1 })).toBe('1 piece')
  })
})

describe('times', () => {
  // The United Kingdom put its clocks forward at 01:00 UTC on 29 March 2026 (tz database).
  it('are those of the room’s zone, through a change of its clocks', () => {
    const london = { zone: 'Europe/London', civilOffsetMs: 0 }
    expect(clockTime(london, Date.UTC(2026, 2, 29, 0, 59))).toBe('00:59')
    expect(clockTime(london, Date.UTC(2026, 2, 29, 1, 0))).toBe('02:00')
  })

  it('are the room’s clock plus its civil offset', () => {
    const room = { zone: 'UTC', civilOffsetMs: 5 * minuteMs }
    expect(clockTime(room, Date.UTC(2026, 0, 1, 23, 58))).toBe('00:03')
  })

  it('count whole minutes gone by, none before', () => {
    expect([-1, 0, 59_999, 60_000].map(wholeMinutes)).toEqual([0, 0, 0, 1])
  })
})

describe('the house', () => {
  it('says that records are not saved, and since when', () => {
    expect(houseWords({ type: 'journalFailing', sinceMs: at0910 }, say)).toBe(
      'Records are not saved since 09:10. Use paper.',
    )
  })
})
