// One command, one effect, however often it comes; and a missing one is asked for.

import { describe, expect, it } from 'vitest'
import { Lanes, settle } from '../../../server/lanes/lanes.ts'
import { settled } from '../../support/fakeTimers.ts'
import { bench, claimNest, giveBack, incubatorRead, weighed, withdrawal } from './bench.ts'
import { noon } from './stubBrain.ts'

describe('a repeated command', () => {
  it('gets its first answer and leaves nothing more', async () => {
    const { take, journal, frames } = bench()
    const first = await take('d1', 1, weighed)
    await take('d2', 1, weighed)
    expect(await take('d1', 1, weighed)).toEqual(first)
    expect(journal.entries).toHaveLength(2)
    expect(frames).toHaveLength(2)
  })

  it('gets its first refusal though the reason is gone', async () => {
    const { take } = bench()
    await take('d1', 1, claimNest(1))
    const refused = await take('d2', 1, claimNest(1))
    await take('d1', 2, giveBack(1))
    expect(await take('d2', 1, claimNest(1))).toEqual(refused)
  })

  it('waits for the flush its first answer rests on', async () => {
    const { take, journal, story } = bench()
    journal.flushes.hold()
    const first = take('d1', 1, weighed)
    await settled()
    const repeat = take('d1', 1, weighed)
    await settled()
    expect(story).toEqual(['written 1'])
    await journal.flushes.release()
    expect(await Promise.all([first, repeat])).toEqual([
      { status: 'applied', version: 1 },
      { status: 'applied', version: 1 },
    ])
    expect(journal.entries).toHaveLength(1)
  })

  it('is known within one batch', async () => {
    const { take, journal } = bench()
    const both = await Promise.all([take('d1', 1, weighed), take('d1', 1, weighed)])
    expect(both[0]).toEqual(both[1])
    expect(journal.entries).toHaveLength(1)
  })

  it('is answered from the journal when its lane has forgotten it', async () => {
    const { take, journal } = bench()
    for (let n = 1; n <= 12; n += 1) await take('d1', n, weighed)
    expect(await take('d1', 2, weighed)).toEqual({ status: 'applied', version: 2 })
    expect(journal.entries).toHaveLength(12)
  })

  it('is told that nothing came of it when neither lane nor journal knows more', async () => {
    const { take } = bench()
    await take('d1', 1, giveBack(1))
    for (let n = 2; n <= 12; n += 1) await take('d1', n, weighed)
    const withdrawn = { status: 'rejected', why: { code: 'Withdrawn' } }
    expect(await take('d1', 1, giveBack(1))).toEqual(withdrawn)
  })

  it('that is looked up keeps its lane in order', async () => {
    const { take, story } = bench()
    for (let n = 1; n <= 12; n += 1) await take('d1', n, weighed)
    story.length = 0
    const answers = await Promise.all([take('d1', 2, weighed), take('d1', 13, weighed)])
    expect(answers).toMatchObject([{ status: 'applied', version: 2 }, { code: 'busy' }])
    expect(await take('d1', 13, weighed)).toEqual({ status: 'applied', version: 13 })
  })

  it('is told it failed, and logged, when the journal cannot be read', async () => {
    const { take, journal, logged } = bench()
    for (let n = 1; n <= 12; n += 1) await take('d1', n, weighed)
    journal.readRecords = () => Promise.reject(new Error('EIO: read'))
    expect(await take('d1', 2, weighed)).toEqual({
      ...{ type: 'fault', code: 'internal', lane: 'd1', n: 2 },
    })
    expect(logged).toMatchObject([{ fields: { lane: 'd1', n: 2 } }])
    expect(await take('d1', 13, weighed)).toEqual({ status: 'applied', version: 13 })
  })
})

describe('a gap in a lane', () => {
  it('names the number that is missing and takes nothing', async () => {
    const { take, journal } = bench()
    await take('d1', 1, weighed)
    const gap = { type: 'fault', code: 'laneGap', lane: 'd1', n: 3, expected: 2 }
    expect(await take('d1', 3, weighed)).toEqual(gap)
    expect(journal.entries).toHaveLength(1)
    expect(await take('d1', 2, weighed)).toMatchObject({ status: 'applied' })
    expect(await take('d1', 3, weighed)).toMatchObject({ status: 'applied' })
  })

  it('is no other lane’s affair', async () => {
    const { take } = bench()
    await take('d1', 1, weighed)
    expect(await take('d1b', 1, weighed)).toEqual({ status: 'applied', version: 2 })
  })
})

describe('a withdrawal', () => {
  it('settles a number that was never taken', async () => {
    const { take, journal } = bench()
    const withdrawn = { status: 'rejected', why: { code: 'Withdrawn' } }
    expect(await take('d1', 1, withdrawal)).toEqual(withdrawn)
    expect(await take('d1', 1, claimNest(1))).toEqual(withdrawn)
    expect(journal.entries).toEqual([])
    expect(await take('d1', 2, incubatorRead)).toMatchObject({ status: 'applied' })
  })

  it('of what was taken gets the answer of what was taken', async () => {
    const { take } = bench()
    const first = await take('d1', 1, claimNest(1))
    expect(await take('d1', 1, withdrawal)).toEqual(first)
  })
})

describe('a thousand lanes', () => {
  it('leave no place for one more while all were heard of late', async () => {
    const lanes = new Lanes()
    const answer = { status: 'applied', version: 1 } as const
    for (let at = 1; at <= 1_000; at += 1)
      lanes.set(`d${at}`, settle(undefined, { n: 1, answer }, noon))
    const { take } = bench({ lanes })
    expect(await take('d2000', 1, weighed)).toMatchObject({ type: 'fault', code: 'tooMany' })
    expect(await take('d7', 2, weighed)).toMatchObject({ status: 'applied' })
  })
})
