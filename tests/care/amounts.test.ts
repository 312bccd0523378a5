// Amounts a feed by group and mass: the handbook's tables row by row, caps that belong to their
// group, and what a screen may fill in.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type AmountGroup,
  capUl,
  freshWeightMs,
  type PrefillQuestion,
  portion,
  prefillUl,
} from '../../shared/care/amounts.ts'
import {
  capChecks,
  doveRows,
  doveSource,
  pigeonRows,
  pigeonSource,
  prefillChecks,
  shareChecks,
  type TableRow,
} from './handbook.data.ts'

const groups: readonly AmountGroup[] = ['passerine', 'finch', 'dove', 'pigeon']
const anyGroup = fc.constantFrom(...groups)
const anyMassMg = fc.integer({ min: 1, max: 500_000 })
/** The same birds every run. */
const drawn = { seed: 27, numRuns: 2_000 }
const nowMs = Date.UTC(2026, 5, 1, 12)

const inMg = (massG: number): number => Math.round(massG * 1_000)
const inUl = (amountMl: number): number => Math.round(amountMl * 1_000)

function capOf(group: AmountGroup, massMg: number): number {
  const cap = capUl(group, massMg)
  if (!cap.ok) throw new Error(cap.error.code)
  return cap.value
}

function asPrinted([, loMl, hiMl, loH, hiH]: TableRow) {
  return {
    loUl: inUl(loMl),
    hiUl: inUl(hiMl),
    capUl: inUl(hiMl),
    spacing: loH === null ? { type: 'timesADay', times: 3 } : { type: 'hours', loH, hiH },
  }
}

const tables = [
  { group: 'pigeon', rows: pigeonRows, ...pigeonSource },
  { group: 'dove', rows: doveRows, ...doveSource },
] as const

describe.each(tables)('the $group table ($source)', ({ group, rows }) => {
  it.each(rows.map((row) => ({ massG: row[0], row })))('holds at $massG g', ({ massG, row }) => {
    expect(portion(group, inMg(massG))).toEqual({ ok: true, value: asPrinted(row) })
  })

  it('keeps the lower row until the next one is reached', () => {
    for (const [at, row] of rows.entries()) {
      const next = rows[at + 1]
      if (next === undefined) continue
      expect(portion(group, inMg(next[0]) - 1)).toEqual({ ok: true, value: asPrinted(row) })
    }
  })

  it('goes on with its last row beyond its end', () => {
    const last = rows.at(-1)
    if (last === undefined) throw new Error('the table is empty')
    expect(portion(group, inMg(last[0]) * 2)).toEqual({ ok: true, value: asPrinted(last) })
  })

  it('has no figure for a bird lighter than its first row', () => {
    const lightestMg = inMg(rows[0]?.[0] ?? 0)
    expect(portion(group, lightestMg - 1)).toEqual({
      ok: false,
      error: { code: 'LighterThanTable', lightestMg },
    })
  })
})

describe('the usual range of a songbird', () => {
  // Common practice, no source: about 0.2 to 0.5 mL a small songbird, 1 to 2 mL robin-sized.
  it.each([
    { group: 'passerine', massG: 12, loUl: 200, hiUl: 500 },
    { group: 'passerine', massG: 60, loUl: 1_000, hiUl: 2_000 },
    { group: 'finch', massG: 20, loUl: 200, hiUl: 500 },
    // The robin-sized row, as far as 5 % of body weight allows.
    { group: 'passerine', massG: 20, loUl: 1_000, hiUl: 1_000 },
    { group: 'passerine', massG: 30, loUl: 1_000, hiUl: 1_500 },
    // 0.2 mL would be 10 % of a 2 g hatchling; 5 % is 0.1 mL.
    { group: 'passerine', massG: 2, loUl: 100, hiUl: 100 },
  ] as const)('of a $massG g $group is $loUl to $hiUl uL', ({ group, massG, loUl, hiUl }) => {
    expect(portion(group, inMg(massG))).toMatchObject({ ok: true, value: { loUl, hiUl } })
  })
})

describe('the cap of one feed', () => {
  it.each(capChecks)('of a $massG g $group is $capMl mL ($source)', (check) => {
    expect(capOf(check.group, inMg(check.massG))).toBe(inUl(check.capMl))
  })

  it.each(shareChecks)('of a $massG g $group is $percent % of body weight ($source)', (check) => {
    const percent = (capOf(check.group, inMg(check.massG)) * 100) / inMg(check.massG)
    expect(percent.toFixed(check.digits)).toBe(check.percent.toFixed(check.digits))
  })

  it('belongs to the group: a dove or pigeon of 40 g may have what would burst a songbird', () => {
    expect(capOf('passerine', 40_000)).toBe(2_000)
    expect(capOf('finch', 40_000)).toBe(1_000)
    expect(capOf('pigeon', 40_000)).toBe(5_000)
    expect(capOf('dove', 40_000)).toBe(5_000)
  })

  it('never falls as a bird grows, and is whole', () => {
    fc.assert(
      fc.property(anyGroup, anyMassMg, anyMassMg, (group, one, other) => {
        const lighter = capUl(group, Math.min(one, other))
        const heavier = capUl(group, Math.max(one, other))
        if (!lighter.ok) return
        if (!heavier.ok) throw new Error('a heavier bird lost its figure')
        expect(lighter.value).toBeLessThanOrEqual(heavier.value)
        expect(Number.isSafeInteger(lighter.value)).toBe(true)
      }),
      drawn,
    )
  })

  it('is never below the usual range', () => {
    fc.assert(
      fc.property(anyGroup, anyMassMg, (group, massMg) => {
        const found = portion(group, massMg)
        if (!found.ok) return
        expect(found.value.loUl).toBeLessThanOrEqual(found.value.hiUl)
        expect(found.value.hiUl).toBeLessThanOrEqual(found.value.capUl)
      }),
      drawn,
    )
  })

  it('is refused by name for what is no mass', () => {
    for (const group of groups) {
      for (const massMg of [0, -1, -20_000, 0.5, 20_000.5, Number.NaN, Number.POSITIVE_INFINITY]) {
        expect(capUl(group, massMg)).toEqual({ ok: false, error: { code: 'NotAMass' } })
        expect(portion(group, massMg)).toEqual({ ok: false, error: { code: 'NotAMass' } })
      }
    }
  })
})

const smallRange = { loUl: 200, hiUl: 500 }

const asked = (over: Partial<PrefillQuestion>): PrefillQuestion => ({
  group: 'passerine',
  range: smallRange,
  weight: { massMg: 8_000, atMs: nowMs },
  nowMs,
  ...over,
})

describe('what a screen fills in', () => {
  it.each(prefillChecks)('$prefillMl mL for a $massG g $group ($source)', (check) => {
    const { group, massG, rangeMl, prefillMl } = check
    const range = rangeMl === null ? null : { loUl: inUl(rangeMl[0]), hiUl: inUl(rangeMl[1]) }
    const weight = { massMg: inMg(massG), atMs: nowMs }
    expect(prefillUl(asked({ group, range, weight }))).toBe(inUl(prefillMl))
  })

  it('is half of what the row would give a 2 g hatchling, where 0.2 mL is 10 %', () => {
    const massMg = 2_000
    const filledInUl = prefillUl(asked({ weight: { massMg, atMs: nowMs } }))
    expect((smallRange.loUl * 100) / massMg).toBe(10)
    expect(filledInUl).toBe(smallRange.loUl / 2)
  })

  it('is nothing without a weight', () => {
    for (const group of groups) expect(prefillUl(asked({ group, weight: null }))).toBeNull()
  })

  it('ends when the weight is 36 h old', () => {
    const aged = (ageMs: number) =>
      prefillUl(asked({ weight: { massMg: 8_000, atMs: nowMs - ageMs } }))
    expect(freshWeightMs).toBe(36 * 60 * 60 * 1_000)
    expect(aged(freshWeightMs - 1)).toBe(400)
    expect(aged(freshWeightMs)).toBeNull()
  })

  it('trusts no weight from the future', () => {
    expect(prefillUl(asked({ weight: { massMg: 8_000, atMs: nowMs + 1 } }))).toBeNull()
  })

  it('is nothing for a songbird whose plan has no range', () => {
    expect(prefillUl(asked({ range: null }))).toBeNull()
  })

  it('is nothing for what is no mass, or lighter than the table', () => {
    for (const massMg of [0, -8_000, Number.NaN, 0.5]) {
      expect(prefillUl(asked({ weight: { massMg, atMs: nowMs } }))).toBeNull()
    }
    const weight = { massMg: 9_999, atMs: nowMs }
    expect(prefillUl(asked({ group: 'dove', range: null, weight }))).toBeNull()
  })

  it('is whole, never over the cap, and there only with a fresh weight', () => {
    const anyRange = fc.option(
      fc.record({
        loUl: fc.integer({ min: 0, max: 500 }),
        hiUl: fc.integer({ min: 500, max: 30_000 }),
      }),
    )
    const anyAgeMs = fc.integer({ min: -freshWeightMs, max: 2 * freshWeightMs })
    fc.assert(
      fc.property(anyGroup, anyMassMg, anyRange, anyAgeMs, (group, massMg, range, ageMs) => {
        const weight = { massMg, atMs: nowMs - ageMs }
        const filledInUl = prefillUl({ group, range, weight, nowMs })
        if (filledInUl === null) return
        expect(Number.isSafeInteger(filledInUl)).toBe(true)
        expect(filledInUl).toBeLessThanOrEqual(capOf(group, massMg))
        if (range !== null) expect(filledInUl).toBeLessThanOrEqual(range.hiUl)
        expect(ageMs).toBeGreaterThanOrEqual(0)
        expect(ageMs).toBeLessThan(freshWeightMs)
      }),
      drawn,
    )
  })
})
