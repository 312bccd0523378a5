// Where the figures come from: every default and every expected value names a source and how far
// it can be trusted, and nothing is checked against memory.

import { describe, expect, it } from 'vitest'
import { cautions } from '../../shared/care/cautions.ts'
import { mourningDoveTable, rockPigeonTable } from '../../shared/care/cropTables.ts'
import { defaultPlans } from '../../shared/care/defaultPlans.ts'
import type { Sourced } from '../../shared/care/sourced.ts'
import {
  capChecks,
  doveSource,
  feedsChecks,
  intervalChecks,
  pigeonSource,
  prefillChecks,
  shareChecks,
  targetCheck,
} from './handbook.data.ts'
import { changeovers } from './zones.data.ts'

/** What a read figure may rest on: a page of the handbook, or one of two named papers. */
const isNamedSource = (source: string): boolean =>
  /^HRB2( p\. \d+|;)/.test(source) ||
  source === 'Purdin' ||
  source === 'public rehabilitation handout, 2011'

function expectTrustworthy({ source, trust }: Sourced): void {
  expect(source.trim()).not.toBe('')
  if (trust === 'read') expect(isNamedSource(source), source).toBe(true)
  if (trust === 'practice') expect(source).toContain('common practice, no source')
  expect(['read', 'derived', 'practice'], source).toContain(trust)
}

const amountsOf = defaultPlans.flatMap((plan) => (plan.amount === null ? [] : [plan.amount]))

const sourcedThings: readonly (readonly [string, readonly Sourced[]])[] = [
  ['default plan', defaultPlans],
  ['amount of a default plan', amountsOf],
  ['crop table', [mourningDoveTable, rockPigeonTable]],
  ['caution', cautions],
  ['count of feeds', feedsChecks],
  ['cap', capChecks],
  ['share of body weight', shareChecks],
  ['prefill', prefillChecks],
  ['interval', intervalChecks],
  ['table row or worked example', [doveSource, pigeonSource, targetCheck]],
]

describe('sources', () => {
  it.each(sourcedThings)('every %s names its source, and none rests on memory', (_, things) => {
    expect(things.length).toBeGreaterThan(0)
    for (const thing of things) expectTrustworthy(thing)
  })

  it('every changeover of the clocks names the law it follows', () => {
    expect(changeovers.length).toBe(4)
    for (const { source } of changeovers) expect(source).toMatch(/260a|2000\/84\/EC/)
  })

  it('a figure from memory does not pass', () => {
    expect(() => expectTrustworthy({ source: 'from memory', trust: 'memory' })).toThrow()
    expect(() => expectTrustworthy({ source: 'somebody said', trust: 'read' })).toThrow()
    expect(() => expectTrustworthy({ source: ' ', trust: 'derived' })).toThrow()
  })
})
