// Default care plans for birds that open their mouths: songbirds, swifts, hummingbirds, and those
// whose interval nobody could read and a supervisor has to fill in. Where a source gives a span the
// shorter end is the default, because a hungry bird cannot wait; a person lengthens it.

import { minuteMs } from '../base/values.ts'
import { robinSizedRange, smallSongbirdRange } from './amounts.ts'
import {
  type DefaultPlan,
  everyStage,
  gapeFedEarlyShare,
  neverEarly,
  type PlanAmount,
} from './defaultPlan.ts'
import { commonPractice } from './sourced.ts'

const span = (loMin: number, hiMin: number) => ({ loMs: loMin * minuteMs, hiMs: hiMin * minuteMs })

const smallAmount: PlanAmount = {
  ...commonPractice,
  lo: smallSongbirdRange.loUl,
  hi: smallSongbirdRange.hiUl,
}

const robinSizedAmount: PlanAmount = {
  ...commonPractice,
  lo: robinSizedRange.loUl,
  hi: robinSizedRange.hiUl,
}

const songbird = {
  fromMassMg: null,
  technique: 'gapeSyringe',
  earlyShare: gapeFedEarlyShare,
  amountGroup: 'passerine',
  amountUnit: 'uL',
} as const

/** Every 30 min is practice; it lies inside the 15 to 30 min the handout prints. */
const nestlingInterval = {
  intervalMs: 30 * minuteMs,
  intervalRange: span(15, 30),
  source: 'common practice, no source; within a public rehabilitation handout, 2011',
  trust: 'practice',
} as const

/** The handout's 60 then 120 min: a fledgling starts at the first of them. */
const fledglingInterval = {
  intervalMs: 60 * minuteMs,
  intervalRange: span(60, 120),
  source: 'public rehabilitation handout, 2011',
  trust: 'read',
} as const

const beforeFledging = ['hatchling', 'nestling'] as const

const songbirdPlans: readonly DefaultPlan[] = [
  {
    ...songbird,
    id: 'smallInsectivore',
    group: 'smallInsectivore',
    stages: everyStage,
    intervalMs: 20 * minuteMs,
    intervalRange: span(20, 30),
    amount: smallAmount,
    source: 'HRB2 p. 674',
    trust: 'read',
  },
  {
    ...songbird,
    id: 'houseFinchHatchling',
    group: 'houseFinch',
    stages: ['hatchling'],
    intervalMs: 30 * minuteMs,
    intervalRange: span(30, 30),
    amountGroup: 'finch',
    amount: smallAmount,
    source: 'Purdin',
    trust: 'read',
  },
  {
    ...songbird,
    id: 'houseFinchOlder',
    group: 'houseFinch',
    stages: ['nestling', 'fledgling'],
    intervalMs: 45 * minuteMs,
    intervalRange: span(45, 45),
    amountGroup: 'finch',
    amount: smallAmount,
    source: 'Purdin',
    trust: 'read',
  },
  {
    ...songbird,
    ...nestlingInterval,
    id: 'smallSongbird',
    group: 'smallSongbird',
    stages: beforeFledging,
    amount: smallAmount,
  },
  {
    ...songbird,
    ...fledglingInterval,
    id: 'smallSongbirdFledgling',
    group: 'smallSongbird',
    stages: ['fledgling'],
    amount: smallAmount,
  },
  {
    ...songbird,
    ...nestlingInterval,
    id: 'robinSizedSongbird',
    group: 'robinSizedSongbird',
    stages: beforeFledging,
    amount: robinSizedAmount,
  },
  {
    ...songbird,
    ...fledglingInterval,
    id: 'robinSizedSongbirdFledgling',
    group: 'robinSizedSongbird',
    stages: ['fledgling'],
    amount: robinSizedAmount,
  },
]

const hummingbird = {
  group: 'hummingbird',
  fromMassMg: null,
  technique: 'hummingbird',
  earlyShare: neverEarly,
  amountGroup: null,
  amountUnit: 'uL',
  amount: null,
  source: 'HRB2 p. 529, 531',
  trust: 'read',
} as const

/** Whole insects, and water after each feed; blended formula is not for them (HRB2 p. 513). */
const swiftPlan: DefaultPlan = {
  id: 'swift',
  group: 'swift',
  stages: everyStage,
  fromMassMg: null,
  technique: 'swiftHand',
  intervalMs: 30 * minuteMs,
  intervalRange: span(30, 60),
  earlyShare: neverEarly,
  amountGroup: null,
  amountUnit: 'pieces',
  amount: { lo: 6, hi: 12, source: 'HRB2 p. 513–514', trust: 'read' },
  source: 'HRB2 p. 513',
  trust: 'read',
}

/** A nestling hummingbird is fed as a hatchling until somebody sees that it is feathered. */
const hummingbirdPlans: readonly DefaultPlan[] = [
  {
    ...hummingbird,
    id: 'hummingbird',
    stages: beforeFledging,
    intervalMs: 20 * minuteMs,
    intervalRange: span(20, 30),
  },
  {
    ...hummingbird,
    id: 'hummingbirdFeathered',
    stages: ['fledgling'],
    intervalMs: 30 * minuteMs,
    intervalRange: span(30, 60),
  },
]

const blank: Omit<DefaultPlan, 'id' | 'group' | 'amountGroup' | 'earlyShare'> = {
  stages: everyStage,
  fromMassMg: null,
  technique: 'gapeSyringe',
  intervalMs: null,
  intervalRange: null,
  amountUnit: 'uL',
  amount: null,
  source: 'no interval was read; technique: common practice, no source',
  trust: 'practice',
}

const blankSongbird = {
  ...blank,
  earlyShare: gapeFedEarlyShare,
  amountGroup: 'passerine',
} as const

/** Corvids and swallows are songbirds, so the songbird's cap and window hold; woodpeckers are not. */
const blankPlans: readonly DefaultPlan[] = [
  { ...blankSongbird, id: 'corvid', group: 'corvid' },
  { ...blank, id: 'woodpecker', group: 'woodpecker', earlyShare: neverEarly, amountGroup: null },
  { ...blankSongbird, id: 'swallow', group: 'swallow' },
]

export const gapeFedPlans: readonly DefaultPlan[] = [
  ...songbirdPlans,
  swiftPlan,
  ...hummingbirdPlans,
  ...blankPlans,
]
