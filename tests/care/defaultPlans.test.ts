// The default care plans against the figures they were read from.

import { describe, expect, it } from 'vitest'
import { portion } from '../../shared/care/amounts.ts'
import { cautions } from '../../shared/care/cautions.ts'
import type { DefaultPlan } from '../../shared/care/defaultPlan.ts'
import { defaultPlans } from '../../shared/care/defaultPlans.ts'
import { intervalChecks } from './handbook.data.ts'

const minuteMs = 60_000

function planOf(id: string): DefaultPlan {
  const plan = defaultPlans.find((each) => each.id === id)
  if (plan === undefined) throw new Error(`no plan ${id}`)
  return plan
}

const plansOf = (...groups: DefaultPlan['group'][]): readonly DefaultPlan[] =>
  defaultPlans.filter((plan) => groups.includes(plan.group))

describe('default care plans', () => {
  it.each(intervalChecks)('$planId: every $intervalMin min ($source)', (check) => {
    const plan = planOf(check.planId)
    const [loMin, hiMin] = check.rangeMin
    expect(plan.intervalMs).toBe(check.intervalMin * minuteMs)
    expect(plan.intervalRange).toEqual({ loMs: loMin * minuteMs, hiMs: hiMin * minuteMs })
    expect(plan.trust).toBe(check.trust)
  })

  it('have ids of their own', () => {
    const ids = defaultPlans.map((plan) => plan.id)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('leave the interval blank where none was read, or a table counts feeds a day', () => {
    const blank = defaultPlans.filter((plan) => plan.intervalMs === null).map((plan) => plan.id)
    expect(blank).toEqual(['corvid', 'woodpecker', 'swallow', 'doveFrom90g'])
  })

  it('keep the interval within what the source says', () => {
    for (const plan of defaultPlans) {
      expect(plan.intervalRange === null).toBe(plan.intervalMs === null)
      if (plan.intervalMs === null || plan.intervalRange === null) continue
      expect(plan.intervalMs).toBeGreaterThanOrEqual(plan.intervalRange.loMs)
      expect(plan.intervalMs).toBeLessThanOrEqual(plan.intervalRange.hiMs)
      expect(Number.isSafeInteger(plan.intervalMs)).toBe(true)
    }
  })

  it('give each stage of a group one plan, unless the bird goes by weight', () => {
    for (const group of new Set(defaultPlans.map((plan) => plan.group))) {
      if (group === 'dove' || group === 'pigeon') continue
      const stages = plansOf(group).flatMap((plan) => plan.stages)
      expect([...stages].sort(), group).toEqual(['fledgling', 'hatchling', 'nestling'])
    }
  })

  it('let gape-fed songbirds come a tenth early, and nothing tubed or signed off apart', () => {
    for (const plan of defaultPlans) {
      const isGapeFedSongbird = plan.technique === 'gapeSyringe' && plan.group !== 'woodpecker'
      expect(plan.earlyShare, plan.id).toBe(isGapeFedSongbird ? 0.1 : 0)
    }
  })

  it('feed doves and pigeons by crop tube, swifts and hummingbirds by their own technique', () => {
    const techniques = (group: DefaultPlan['group']) =>
      new Set(plansOf(group).map((plan) => plan.technique))
    expect(techniques('dove')).toEqual(new Set(['cropTube']))
    expect(techniques('pigeon')).toEqual(new Set(['cropTube']))
    expect(techniques('swift')).toEqual(new Set(['swiftHand']))
    expect(techniques('hummingbird')).toEqual(new Set(['hummingbird']))
  })

  it('count a swift’s feed in pieces: 6 or 7 insects, up to 12 (HRB2 p. 513–514)', () => {
    expect(planOf('swift')).toMatchObject({ amountUnit: 'pieces', amount: { lo: 6, hi: 12 } })
  })

  it('have a table row at the lightest bird of every plan that goes by weight', () => {
    for (const plan of plansOf('dove', 'pigeon')) {
      if (plan.amountGroup === null || plan.fromMassMg === null) throw new Error(plan.id)
      const found = portion(plan.amountGroup, plan.fromMassMg)
      if (!found.ok) throw new Error(`${plan.id}: ${found.error.code}`)
      const { spacing } = found.value
      const hours = spacing?.type === 'hours' ? spacing.hiH * 60 * minuteMs : null
      expect(plan.intervalMs, plan.id).toBe(hours)
    }
  })
})

describe('the cautions', () => {
  const said = cautions.map((caution) => caution.text).join(' ')

  it.each([
    'not medical advice',
    'Local law',
    'permit',
    'supervisor',
    'vet',
    'from the side',
    'windpipe',
    '38–40.5 °C (100–105 °F)',
    'Over 41 °C',
    'microwave',
    'not emptied',
    'signed off',
    'written and dated',
  ])('say “%s”', (words) => {
    expect(said).toContain(words)
  })
})
