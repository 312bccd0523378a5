// The short simulation: mornings of a small room under every kind of trouble, in which nothing happens
// that may never happen; and the proof that a run can be repeated and that the trouble was real.

import { describe, expect, it } from 'vitest'
import { faultClasses } from './faultClasses.ts'
import { keptSeeds, keptUntilHour } from './keptSeeds.ts'
import { runWorld, type WorldOutcome } from './world.ts'

/** A machine that does much else besides is given its time. */
const worldMaxMs = 120_000
const outcomes: WorldOutcome[] = []

const morning = (seed: number) =>
  runWorld({ seed, days: 1, handhelds: 4, walls: 1, untilHour: keptUntilHour })

describe('a morning of a room under trouble', () => {
  it.each(keptSeeds)(
    'breaks none of the promises with seed %i',
    async (seed) => {
      const outcome = await morning(seed)
      outcomes.push(outcome)
      expect(outcome.violations).toEqual([])
      expect(outcome.steps).toBeGreaterThan(10_000)
    },
    worldMaxMs,
  )

  it('knows every kind of trouble in at least one of these seeds', () => {
    const injected = (fault: (typeof faultClasses)[number]) =>
      outcomes.reduce((sum, { faults }) => sum + faults[fault], 0)
    expect(faultClasses.filter((fault) => injected(fault) === 0)).toEqual([])
  })

  it('leaves some kinds of trouble out of each seed or another', () => {
    const isLeftOut = (fault: (typeof faultClasses)[number]) =>
      outcomes.some(({ faults }) => faults[fault] === 0)
    expect(faultClasses.filter(isLeftOut).length).toBeGreaterThan(faultClasses.length / 2)
  })

  it(
    'leaves the same trace when its seed is run again, and another with another seed',
    async () => {
      const [first, other] = outcomes
      const again = await morning(first?.seed ?? 0)
      expect(again.traceHash).toBe(first?.traceHash)
      expect(again.steps).toBe(first?.steps)
      expect(again.traceHash).not.toBe(other?.traceHash)
    },
    worldMaxMs,
  )
})

describe('a day, a night and a day', () => {
  it(
    'go by without a broken promise, and the second day finds the room as it was left',
    async () => {
      const outcome = await runWorld({ seed: 9, days: 2, handhelds: 4, walls: 1 })
      expect(outcome.violations).toEqual([])
    },
    2 * worldMaxMs,
  )
})
