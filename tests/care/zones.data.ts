// When the clocks of two zones change in 2026, as plain instants, for tests of rules that keep
// civil time. zones.test.ts derives each from the law's wording and compares it with ICU's tables.
// On the spring day an hour of the wall clock is skipped, on the autumn day one comes twice.

/** Which Sunday of which month, and what the hour is counted on when the clocks change. */
export type ChangeoverRule = {
  readonly month: number
  readonly sunday: 1 | 2 | 'last'
  readonly hour: number
  readonly countedOn: 'wallClock' | 'utc'
}

export type Changeover = {
  readonly zone: 'America/Los_Angeles' | 'Europe/London'
  readonly turn: 'forward' | 'back'
  /** The first instant of the new offset. */
  readonly atMs: number
  readonly localDate: string
  readonly offsetBeforeMin: number
  readonly offsetAfterMin: number
  /** The wall clock would have read this at `atMs`, and reads `localAfter` instead. */
  readonly localBefore: string
  readonly localAfter: string
  readonly rule: ChangeoverRule
  readonly source: string
}

const unitedStates = 'United States Code, title 15, section 260a(a)'
const unitedKingdom =
  'Directive 2000/84/EC, articles 2 and 3; kept by the Summer Time Order 2002 (SI 2002/262)'

/** In the order they come. */
export const changeovers: readonly Changeover[] = [
  {
    zone: 'America/Los_Angeles',
    turn: 'forward',
    atMs: Date.parse('2026-03-08T10:00:00Z'),
    localDate: '2026-03-08',
    offsetBeforeMin: -480,
    offsetAfterMin: -420,
    localBefore: '02:00',
    localAfter: '03:00',
    rule: { month: 3, sunday: 2, hour: 2, countedOn: 'wallClock' },
    source: unitedStates,
  },
  {
    zone: 'Europe/London',
    turn: 'forward',
    atMs: Date.parse('2026-03-29T01:00:00Z'),
    localDate: '2026-03-29',
    offsetBeforeMin: 0,
    offsetAfterMin: 60,
    localBefore: '01:00',
    localAfter: '02:00',
    rule: { month: 3, sunday: 'last', hour: 1, countedOn: 'utc' },
    source: unitedKingdom,
  },
  {
    zone: 'Europe/London',
    turn: 'back',
    atMs: Date.parse('2026-10-25T01:00:00Z'),
    localDate: '2026-10-25',
    offsetBeforeMin: 60,
    offsetAfterMin: 0,
    localBefore: '02:00',
    localAfter: '01:00',
    rule: { month: 10, sunday: 'last', hour: 1, countedOn: 'utc' },
    source: unitedKingdom,
  },
  {
    zone: 'America/Los_Angeles',
    turn: 'back',
    atMs: Date.parse('2026-11-01T09:00:00Z'),
    localDate: '2026-11-01',
    offsetBeforeMin: -420,
    offsetAfterMin: -480,
    localBefore: '02:00',
    localAfter: '01:00',
    rule: { month: 11, sunday: 1, hour: 2, countedOn: 'wallClock' },
    source: unitedStates,
  },
]
