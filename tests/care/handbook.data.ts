// Published and derived figures the sums are held against, copied from the sources by hand and not
// from the program's own tables. Every check names its source; nothing from memory is in here.

import type { AmountGroup } from '../../shared/care/amounts.ts'
import type { Sourced } from '../../shared/care/sourced.ts'

export type FeedsCheck = Sourced & { hours: number; intervalMin: number; feeds: number }

const firstToLast: Sourced = {
  source: 'arithmetic: first to last feed inclusive, floor(hours × 60 ÷ interval) + 1',
  trust: 'derived',
}

export const feedsChecks: readonly FeedsCheck[] = [
  { hours: 14, intervalMin: 30, feeds: 29, ...firstToLast },
  { hours: 14, intervalMin: 20, feeds: 43, ...firstToLast },
  { hours: 12, intervalMin: 45, feeds: 17, ...firstToLast },
]

/** As printed: weight g, mL from, mL to, hours from, hours to; null hours: three times a day. */
export type TableRow = readonly [number, number, number, number | null, number | null]

export const pigeonSource: Sourced = { source: 'HRB2 p. 447, table 27.2', trust: 'read' }

export const pigeonRows: readonly TableRow[] = [
  [20, 1, 2, 1, 1],
  [30, 2.5, 3.5, 1, 2],
  [40, 3, 5, 2, 2],
  [50, 4, 6, 2, 2],
  [75, 5, 8, 2, 2],
  [100, 8, 10, 2, 2],
  [125, 11, 13, 2, 2],
  [150, 14, 16, 2, 2],
  [175, 17, 18, 3, 3],
  [200, 18, 20, 3, 3],
  [225, 18, 20, 3, 3],
  [250, 18, 20, 4, 4],
  [400, 18, 20, 4, 4],
]

export const doveSource: Sourced = { source: 'HRB2 p. 446, table 27.1', trust: 'read' }

export const doveRows: readonly TableRow[] = [
  [10, 1, 1, 0.5, 1],
  [15, 1.5, 2, 1, 1.5],
  [20, 1.5, 2.5, 2, 2],
  [25, 2, 3, 2, 2],
  [30, 2.5, 3.5, 2, 2],
  [35, 4, 4, 2, 2],
  [40, 5, 5, 3, 3],
  [45, 5, 5, 3, 3],
  [50, 6, 6, 3, 3],
  [60, 6, 7, 3, 3],
  [65, 6, 7, 3.5, 3.5],
  [70, 8, 8, 4, 4],
  [80, 8, 8, 4, 4],
  [90, 9, 9, null, null],
]

export type CapCheck = Sourced & { group: AmountGroup; massG: number; capMl: number }

const finchCap: Sourced = { source: 'HRB2 p. 750', trust: 'read' }
const songbirdShare: Sourced = {
  source: '5 % of body weight, the share HRB2 p. 750 comes to at 15 g',
  trust: 'derived',
}
const lowerPigeonRow: Sourced = {
  source: 'HRB2 p. 447, table 27.2: the lower row holds between rows',
  trust: 'derived',
}
const lowerDoveRow: Sourced = {
  source: 'HRB2 p. 446, table 27.1: the lower row holds between rows',
  trust: 'derived',
}

export const capChecks: readonly CapCheck[] = [
  { group: 'finch', massG: 15, capMl: 0.75, ...finchCap },
  { group: 'finch', massG: 17, capMl: 1, ...finchCap },
  { group: 'finch', massG: 25, capMl: 1, ...finchCap },
  {
    group: 'finch',
    massG: 16.999,
    capMl: 0.75,
    source: 'HRB2 p. 750: from 17 g',
    trust: 'derived',
  },
  { group: 'finch', massG: 10, capMl: 0.5, ...songbirdShare },
  { group: 'passerine', massG: 2, capMl: 0.1, ...songbirdShare },
  { group: 'passerine', massG: 10, capMl: 0.5, ...songbirdShare },
  { group: 'passerine', massG: 40, capMl: 2, ...songbirdShare },
  { group: 'pigeon', massG: 29.999, capMl: 2, ...lowerPigeonRow },
  { group: 'pigeon', massG: 60, capMl: 6, ...lowerPigeonRow },
  { group: 'pigeon', massG: 99.999, capMl: 8, ...lowerPigeonRow },
  { group: 'pigeon', massG: 320, capMl: 20, source: 'HRB2 p. 447, 250–400 g', trust: 'read' },
  { group: 'dove', massG: 14.999, capMl: 1, ...lowerDoveRow },
  { group: 'dove', massG: 37, capMl: 4, ...lowerDoveRow },
  { group: 'dove', massG: 55, capMl: 6, ...lowerDoveRow },
  { group: 'dove', massG: 89.999, capMl: 8, ...lowerDoveRow },
]

export type ShareCheck = CapCheck & { percent: number; digits: number }

/** What each cap comes to of the body weight, a millilitre taken as a gram. */
export const shareChecks: readonly ShareCheck[] = [
  {
    group: 'finch',
    massG: 15,
    capMl: 0.75,
    percent: 5.0,
    digits: 1,
    source: '0.75 ÷ 15, HRB2 p. 750',
    trust: 'derived',
  },
  {
    group: 'finch',
    massG: 17,
    capMl: 1,
    percent: 5.9,
    digits: 1,
    source: '1 ÷ 17, HRB2 p. 750',
    trust: 'derived',
  },
  {
    group: 'dove',
    massG: 15,
    capMl: 2,
    percent: 13,
    digits: 0,
    source: '2 ÷ 15, HRB2 p. 446',
    trust: 'derived',
  },
  {
    group: 'pigeon',
    massG: 40,
    capMl: 5,
    percent: 12.5,
    digits: 1,
    source: '5 ÷ 40, HRB2 p. 447',
    trust: 'derived',
  },
]

export type PrefillCheck = Sourced & {
  group: AmountGroup
  massG: number
  rangeMl: readonly [number, number] | null
  prefillMl: number
}

const smallerOfBoth: Sourced = {
  source: 'the smaller of the row (common practice, no source) and 5 % of the weight',
  trust: 'derived',
}

export const prefillChecks: readonly PrefillCheck[] = [
  { group: 'passerine', massG: 2, rangeMl: [0.2, 0.5], prefillMl: 0.1, ...smallerOfBoth },
  { group: 'passerine', massG: 8, rangeMl: [0.2, 0.5], prefillMl: 0.4, ...smallerOfBoth },
  { group: 'passerine', massG: 18, rangeMl: [0.2, 0.5], prefillMl: 0.5, ...smallerOfBoth },
  { group: 'passerine', massG: 30, rangeMl: [1, 2], prefillMl: 1.5, ...smallerOfBoth },
  { group: 'passerine', massG: 60, rangeMl: [1, 2], prefillMl: 2, ...smallerOfBoth },
  { group: 'finch', massG: 20, rangeMl: [0.2, 0.5], prefillMl: 0.5, ...smallerOfBoth },
  { group: 'finch', massG: 17, rangeMl: [1, 2], prefillMl: 0.85, ...smallerOfBoth },
  { group: 'finch', massG: 30, rangeMl: [1, 2], prefillMl: 1, ...finchCap },
  { group: 'dove', massG: 15, rangeMl: null, prefillMl: 1.5, ...doveSource },
  { group: 'dove', massG: 15, rangeMl: [0.5, 1], prefillMl: 1, ...doveSource },
  { group: 'pigeon', massG: 50, rangeMl: null, prefillMl: 4, ...pigeonSource },
]

/** HRB2 p. 560: 10 g × 35 % ÷ 7 feeds = 0.5 g a feed. */
export const targetCheck = {
  massMg: 10_000,
  dailySharePercent: 35,
  feeds: 7,
  perFeedMg: 500,
  source: 'HRB2 p. 560',
  trust: 'read',
} as const

export type IntervalCheck = Sourced & {
  planId: string
  intervalMin: number
  rangeMin: readonly [number, number]
}

export const intervalChecks: readonly IntervalCheck[] = [
  {
    planId: 'smallInsectivore',
    intervalMin: 20,
    rangeMin: [20, 30],
    source: 'HRB2 p. 674',
    trust: 'read',
  },
  {
    planId: 'houseFinchHatchling',
    intervalMin: 30,
    rangeMin: [30, 30],
    source: 'Purdin',
    trust: 'read',
  },
  {
    planId: 'houseFinchOlder',
    intervalMin: 45,
    rangeMin: [45, 45],
    source: 'Purdin',
    trust: 'read',
  },
  {
    planId: 'smallSongbird',
    intervalMin: 30,
    rangeMin: [15, 30],
    source: 'common practice, no source; public rehabilitation handout, 2011',
    trust: 'practice',
  },
  {
    planId: 'smallSongbirdFledgling',
    intervalMin: 60,
    rangeMin: [60, 120],
    source: 'public rehabilitation handout, 2011',
    trust: 'read',
  },
  { planId: 'swift', intervalMin: 30, rangeMin: [30, 60], source: 'HRB2 p. 513', trust: 'read' },
  {
    planId: 'hummingbird',
    intervalMin: 20,
    rangeMin: [20, 30],
    source: 'HRB2 p. 529, 531',
    trust: 'read',
  },
  {
    planId: 'hummingbirdFeathered',
    intervalMin: 30,
    rangeMin: [30, 60],
    source: 'HRB2 p. 529, 531',
    trust: 'read',
  },
  { planId: 'doveFrom10g', intervalMin: 60, rangeMin: [30, 60], ...doveSource },
  { planId: 'doveFrom15g', intervalMin: 90, rangeMin: [60, 90], ...doveSource },
  { planId: 'doveFrom20g', intervalMin: 120, rangeMin: [120, 120], ...doveSource },
  { planId: 'doveFrom40g', intervalMin: 180, rangeMin: [180, 180], ...doveSource },
  { planId: 'doveFrom65g', intervalMin: 210, rangeMin: [210, 210], ...doveSource },
  { planId: 'doveFrom70g', intervalMin: 240, rangeMin: [240, 240], ...doveSource },
  { planId: 'pigeonFrom20g', intervalMin: 60, rangeMin: [60, 60], ...pigeonSource },
  { planId: 'pigeonFrom30g', intervalMin: 120, rangeMin: [60, 120], ...pigeonSource },
  { planId: 'pigeonFrom40g', intervalMin: 120, rangeMin: [120, 120], ...pigeonSource },
  { planId: 'pigeonFrom175g', intervalMin: 180, rangeMin: [180, 180], ...pigeonSource },
  { planId: 'pigeonFrom250g', intervalMin: 240, rangeMin: [240, 240], ...pigeonSource },
]
