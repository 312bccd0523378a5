// What the desk makes of what somebody types: amounts, corrections, care plans, broods.

import { describe, expect, it } from 'vitest'
import { typedAmount, typedText } from '../../client/desk/amountInput.ts'
import { birdsOfFields } from '../../client/desk/broodInput.ts'
import { correctedAnswers } from '../../client/desk/correction.ts'
import { clockTimesText, planOfFields, type TypedPlan } from '../../client/desk/planInput.ts'
import type { BirdId } from '../../shared/base/values.ts'
import { carePlan } from '../../shared/board/parts.ts'
import { capUl } from '../../shared/care/amounts.ts'
import { defaultPlans } from '../../shared/care/defaultPlans.ts'
import type { RecordedAnswer } from '../../shared/views/deskNest.ts'
import { draftFrom, draftOf } from '../../shared/views/deskPlans.ts'
import { birdOf, planOf } from '../support/roomBuilder.ts'

describe('an amount', () => {
  it.each([
    ['0.6', 'uL', 600],
    ['0,6', 'uL', 600],
    [' 12 ', 'pieces', 12],
    ['1.25', 'mg', 1_250],
  ] as const)('typed as %j in %s is %i', (text, unit, n) => {
    expect(typedAmount(text, unit)).toEqual({ type: 'amount', amount: { unit, n } })
  })

  it.each([
    ['-1', 'uL'],
    ['half', 'uL'],
    ['1.5', 'pieces'],
    ['1001', 'uL'],
    ['1e3', 'uL'],
  ] as const)('cannot be read from %j in %s', (text, unit) => {
    expect(typedAmount(text, unit)).toEqual({ type: 'unreadable' })
  })

  it('left empty is none, and reads back as it was typed', () => {
    expect(typedAmount('  ', 'uL')).toEqual({ type: 'none' })
    expect(typedText(650, 'uL')).toBe('0.65')
  })
})

describe('a correction', () => {
  const planned = { amount: { unit: 'uL', n: 600 }, is: 'planned' } as const
  const recorded: readonly RecordedAnswer[] = [
    { bird: birdOf(1), band: 'red', place: 1, outcome: 'ate', given: planned },
    { bird: birdOf(2), band: 'blue', place: 2, outcome: 'ate', given: planned },
  ]
  const typing = (changed: BirdId, typed: { outcome: 'ate' | 'refused'; amount: string }) =>
    correctedAnswers(
      recorded,
      (bird) => (bird === changed ? typed : { outcome: 'ate', amount: '0.6' }),
      'uL',
    )

  it('names only the birds that differ', () => {
    expect(typing(birdOf(2), { outcome: 'refused', amount: '' })).toEqual({
      ok: true,
      value: [{ bird: birdOf(2), outcome: 'refused' }],
    })
  })

  it('makes a typed amount a measured one, and leaves an untouched one planned', () => {
    expect(typing(birdOf(1), { outcome: 'ate', amount: '0.4' })).toMatchObject({
      value: [{ given: { amount: { unit: 'uL', n: 400 }, is: 'measured' } }],
    })
    expect(typing(birdOf(1), { outcome: 'refused', amount: '0.6' })).toMatchObject({
      value: [{ outcome: 'refused', given: planned }],
    })
  })

  it('that changes nothing, or cannot be read, is none', () => {
    expect(typing(birdOf(1), { outcome: 'ate', amount: '0.6' })).toEqual({
      ok: false,
      error: 'unchanged',
    })
    expect(typing(birdOf(1), { outcome: 'ate', amount: 'lots' })).toEqual({
      ok: false,
      error: 'unreadable',
    })
  })
})

describe('a care plan', () => {
  const typed: TypedPlan = {
    ...{ label: 'Finch', technique: 'gapeSyringe', everyMinutes: '30', clockTimes: '' },
    ...{ earlyPercent: '10', unit: 'uL', planned: '0.4', cap: '0.6', source: 'the vet, in May' },
  }
  const plan = (change: Partial<TypedPlan>) => planOfFields({ ...typed, ...change })

  it('is one the board takes, by interval or by clock times', () => {
    for (const set of [plan({}), plan({ clockTimes: '12:30, 7:00' })]) {
      expect(set.ok && carePlan.safeParse({ id: planOf(1), ...set.value }).success).toBe(true)
    }
    expect(plan({ clockTimes: '12:30, 7:00' })).toMatchObject({
      value: { timing: { type: 'at', minutesOfDay: [420, 750] } },
    })
    expect(clockTimesText([420, 750])).toBe('7:00, 12:30')
  })

  it.each([
    ['label', { label: ' ' }],
    ['timing', { everyMinutes: '' }],
    ['timing', { everyMinutes: '4' }],
    ['timing', { everyMinutes: '721' }],
    ['clockTimes', { clockTimes: '7:00, noon' }],
    ['clockTimes', { clockTimes: '7:75' }],
    ['early', { earlyPercent: '51' }],
    ['amount', { planned: 'a bit' }],
    ['overCap', { planned: '0.7' }],
    ['source', { source: '' }],
  ] as const)('is sent back for its %s: %j', (problem, change) => {
    expect(plan(change)).toEqual({ ok: false, error: problem })
  })

  it('begun from a default has its interval and source, and amounts only with a weight', () => {
    const finch = defaultPlans.find(({ id }) => id === 'houseFinchHatchling')
    if (!finch) throw new Error('there is no such default')
    expect(draftOf(finch, null)).toMatchObject({
      ...{ everyMs: finch.intervalMs, source: finch.source, plannedN: null, capN: null },
    })
    const cap = capUl('finch', 9_000)
    expect(cap.ok).toBe(true)
    expect(draftOf(finch, 9_000).capN).toBe(cap.ok ? cap.value : null)
  })

  it('that replaces another begins as that one', () => {
    const set = plan({})
    if (!set.ok) throw new Error('the plan is sound')
    expect(draftFrom({ id: planOf(1), ...set.value })).toMatchObject({
      ...{ label: 'Finch', everyMs: 1_800_000, plannedN: 400, capN: 600 },
    })
  })
})

describe('a brood', () => {
  const typed = { howMany: '3', bands: 'red, blue', species: 'hofi', plan: planOf(1) }

  it('has as many birds as said, the first ones banded', () => {
    const birds = birdsOfFields(typed)
    expect(birds.ok && birds.value.map(({ band }) => band)).toEqual(['red', 'blue', null])
    expect(birds.ok && birds.value[0]?.species).toBe('HOFI')
  })

  it.each([
    ['howMany', { howMany: '0' }],
    ['howMany', { howMany: '13' }],
    ['bands', { bands: 'red, red' }],
    ['bands', { bands: 'red, blue, green, white' }],
    ['species', { species: 'finch' }],
  ] as const)('is sent back for its %s: %j', (problem, change) => {
    expect(birdsOfFields({ ...typed, ...change })).toEqual({ ok: false, error: problem })
  })
})
