import { describe, expect, it } from 'vitest'
import { learnLanes } from '../../../server/lanes/fromRecords.ts'
import {
  answersPerLaneMax,
  type Lane,
  Lanes,
  laneSilentMs,
  lanesMax,
  settle,
  standingOf,
} from '../../../server/lanes/lanes.ts'
import type { Entry } from '../../../server/scribe/ports.ts'
import { dayMs } from '../../../shared/base/values.ts'
import type { Answer } from '../../../shared/wire/frames.ts'

const applied = (version: number): Answer => ({ status: 'applied', version })

const laneUpTo = (n: number, atMs = 0): Lane | undefined => {
  let lane: Lane | undefined
  for (let at = 1; at <= n; at += 1) lane = settle(lane, { n: at, answer: applied(at) }, atMs)
  return lane
}

const record = (version: number, cause: Entry['cause'], events: Entry['events'] = []): Entry => ({
  ...{ version, epoch: 1, atMs: version, cause, by: null, device: null, events },
})

describe('a number in its lane', () => {
  it.each([
    { settled: 0, n: 1, standing: { type: 'next' } },
    { settled: 0, n: 2, standing: { type: 'gap', expected: 1 } },
    { settled: 3, n: 4, standing: { type: 'next' } },
    { settled: 3, n: 6, standing: { type: 'gap', expected: 4 } },
    { settled: 3, n: 3, standing: { type: 'repeat', answer: applied(3) } },
    { settled: 3, n: 1, standing: { type: 'repeat', answer: applied(1) } },
    { settled: 20, n: 12, standing: { type: 'forgotten' } },
    { settled: 20, n: 13, standing: { type: 'repeat', answer: applied(13) } },
  ])('$n after $settled is $standing.type', ({ settled, n, standing }) => {
    expect(standingOf(laneUpTo(settled), n)).toEqual(standing)
  })

  it('keeps its first answer when it is settled again', () => {
    const lane = laneUpTo(3)
    expect(settle(lane, { n: 3, answer: applied(99) }, 5)).toBe(lane)
  })

  it('is kept with the latest few answers only', () => {
    expect(laneUpTo(100)?.answers).toHaveLength(answersPerLaneMax)
  })
})

describe('the lanes of a room', () => {
  const full = (atMs: (at: number) => number) => {
    const lanes = new Lanes()
    for (let at = 0; at < lanesMax; at += 1) {
      lanes.set(`d${at + 1}`, settle(undefined, { n: 1, answer: applied(1) }, atMs(at)))
    }
    return lanes
  }

  it('take no newcomer while a thousand devices spoke within a month', () => {
    const lanes = full((at) => at)
    expect(lanes.hasPlaceFor('d5000', laneSilentMs)).toBe(false)
    expect(lanes.hasPlaceFor('d1', laneSilentMs)).toBe(true)
  })

  it('forget the longest silent for a newcomer, after a month', () => {
    const lanes = full((at) => at)
    const nowMs = laneSilentMs + 1
    expect(lanes.hasPlaceFor('d5000', nowMs)).toBe(true)
    lanes.set('d5000', settle(undefined, { n: 1, answer: applied(2) }, nowMs))
    expect(lanes.get('d1')).toBeUndefined()
    expect(lanes.get('d2')).toBeDefined()
    expect(lanes.save()).toHaveLength(lanesMax)
  })

  it('count silence from the last word and not from the first', () => {
    const lanes = full(() => 0)
    lanes.set('d1', settle(lanes.get('d1'), { n: 2, answer: applied(3) }, dayMs))
    lanes.set('d5000', settle(undefined, { n: 1, answer: applied(4) }, laneSilentMs + dayMs))
    expect(lanes.get('d1')?.settledN).toBe(2)
    expect(lanes.get('d2')).toBeUndefined()
  })

  it('come back from a snapshot as they were', () => {
    const lanes = new Lanes()
    lanes.set('d1', settle(undefined, { n: 1, answer: applied(7) }, 10))
    const read = new Lanes(JSON.parse(JSON.stringify(lanes.save())))
    expect(read.get('d1')).toEqual(lanes.get('d1'))
  })
})

describe('lanes learnt from records', () => {
  it('know the last number and its answer', () => {
    const lanes = new Lanes()
    learnLanes(lanes, [
      record(5, { type: 'command', lane: 'd1', n: 1 }),
      record(6, { type: 'clock' }),
      record(7, { type: 'command', lane: 'd1', n: 4 }),
    ])
    expect(standingOf(lanes.get('d1'), 4)).toEqual({ type: 'repeat', answer: applied(7) })
    expect(standingOf(lanes.get('d1'), 3)).toEqual({ type: 'forgotten' })
    expect(standingOf(lanes.get('d1'), 5)).toEqual({ type: 'next' })
  })

  it('say that a report was set aside', () => {
    const lanes = new Lanes()
    const aside = { type: 'ReportSetAside', v: 1, by: 'p1', atMs: 1, why: 'birdUnknown', body: {} }
    const events = [aside] as unknown as Entry['events']
    learnLanes(lanes, [record(2, { type: 'command', lane: 'd1', n: 1 }, events)])
    const answer = { status: 'applied', version: 2, isSetAside: true }
    expect(standingOf(lanes.get('d1'), 1)).toEqual({ type: 'repeat', answer })
  })

  it('do not forget what a snapshot knew beyond the records', () => {
    const lanes = new Lanes()
    const refused: Answer = { status: 'rejected', why: { code: 'NotOnShift' } }
    lanes.set('d1', settle(undefined, { n: 9, answer: refused }, 1))
    learnLanes(lanes, [record(2, { type: 'command', lane: 'd1', n: 8 })])
    expect(standingOf(lanes.get('d1'), 9)).toEqual({ type: 'repeat', answer: refused })
  })
})
