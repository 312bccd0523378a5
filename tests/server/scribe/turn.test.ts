// The order of a turn, which is what keeps a tap from being lost: written, flushed, seen, answered.

import { describe, expect, it } from 'vitest'
import { canonical, hashText } from '../../../shared/base/hash.ts'
import { settled } from '../../support/fakeTimers.ts'
import { personOf } from '../../support/roomBuilder.ts'
import {
  bench,
  brokenEvent,
  brokenRule,
  claimNest,
  giveBack,
  incubatorRead,
  taken,
  weighed,
} from './bench.ts'
import { day, noon, stubBoard } from './stubBrain.ts'

describe('a command', () => {
  it('is written, flushed, shown and then answered', async () => {
    const { take, story } = bench()
    expect(await take('d1', 1, claimNest(1))).toEqual({ status: 'applied', version: 1 })
    expect(story).toEqual(['written 1', 'flushed', 'seen 1', 'answered d1.1'])
  })

  it('leaves a record that says who, from where, when and why', async () => {
    const { take, journal } = bench()
    await take('d1', 1, weighed)
    expect(journal.entries[0]).toMatchObject({
      ...{ version: 1, epoch: 1, atMs: noon, by: 'p1', device: 'd1' },
      cause: { type: 'command', lane: 'd1', n: 1 },
    })
    expect(journal.dayLabels).toEqual([day.date])
  })

  it('is seen by nobody while its flush runs', async () => {
    const { take, scribe, frames, journal } = bench()
    journal.flushes.hold()
    const answer = take('d1', 1, claimNest(1))
    await settled()
    expect(scribe.durable.version).toBe(0)
    expect(scribe.durable.board).toBe(stubBoard)
    expect(frames).toEqual([])
    await journal.flushes.release()
    await answer
    expect(scribe.durable.version).toBe(1)
  })

  it('that is refused is answered without a record', async () => {
    const { take, journal } = bench()
    await take('d1', 1, claimNest(1))
    const answer = await take('d2', 1, claimNest(1))
    expect(answer).toEqual({
      status: 'rejected',
      why: { code: 'NestTaken', person: personOf(1), sinceMs: noon },
    })
    expect(journal.entries).toHaveLength(1)
  })

  it('leaves no record as an ask that changes nothing, and one as a report', async () => {
    const { take, journal } = bench()
    expect(await take('d1', 1, giveBack(1))).toEqual({ status: 'applied', version: 0 })
    expect(journal.entries).toEqual([])
    expect(await take('d1', 2, incubatorRead)).toEqual({ status: 'applied', version: 1 })
    expect(journal.entries).toMatchObject([{ version: 1, events: [] }])
  })

  it('is told when its report was set aside', async () => {
    const { take } = bench()
    const seen = { type: 'BirdSeen', v: 1, bird: 'b9', signs: [], droppings: 'seen' } as never
    expect(await take('d1', 1, seen)).toEqual({ status: 'applied', version: 1, isSetAside: true })
  })
})

describe('a flush', () => {
  it('is shared by all who came while the one before it ran', async () => {
    const { take, journal, story } = bench()
    journal.flushes.hold()
    const first = take('d1', 1, weighed)
    await settled()
    const others = [take('d2', 1, weighed), take('d3', 1, weighed), take('d4', 1, weighed)]
    await settled()
    expect(journal.flushes.count).toBe(1)
    await journal.flushes.release()
    await Promise.all([first, ...others])
    expect(journal.sizes).toEqual([1, 3])
    expect(story.slice(-8)).toEqual([
      ...['written 4', 'flushed', 'seen 2', 'seen 3', 'seen 4'],
      ...['answered d2.1', 'answered d3.1', 'answered d4.1'],
    ])
  })

  it('is shared by all who came at the same moment', async () => {
    const { take, journal } = bench()
    await Promise.all([take('d1', 1, weighed), take('d2', 1, weighed)])
    expect(journal.sizes).toEqual([2])
  })

  it('is waited for by a refusal that rests on it', async () => {
    const { take, journal, story } = bench()
    journal.flushes.hold()
    const both = Promise.all([take('d1', 1, claimNest(1)), take('d2', 1, claimNest(1))])
    await settled()
    expect(story).toEqual(['written 1'])
    await journal.flushes.release()
    expect(await both).toMatchObject([{ status: 'applied' }, { status: 'rejected' }])
    expect(story.slice(-2)).toEqual(['answered d1.1', 'answered d2.1'])
  })

  it('is waited for by an ask that finds its wish already true', async () => {
    const { take, journal, story } = bench()
    await take('d1', 1, claimNest(1))
    journal.flushes.hold()
    const both = Promise.all([take('d1', 2, giveBack(1)), take('d2', 1, giveBack(1))])
    await settled()
    expect(story.at(-1)).toBe('written 2')
    await journal.flushes.release()
    expect(await both).toEqual([
      { status: 'applied', version: 2 },
      { status: 'applied', version: 2 },
    ])
  })

  it('carries no more than a hundred commands', async () => {
    const { scribe, journal } = bench()
    const all = Array.from({ length: 250 }, (_, at) => scribe.take(taken(`d${at + 1}`, 1, weighed)))
    await Promise.all(all)
    expect(journal.sizes).toEqual([100, 100, 50])
  })
})

describe('the line before the scribe', () => {
  it('turns away whoever comes when five hundred wait', async () => {
    const { scribe, journal } = bench()
    journal.flushes.hold()
    const first = scribe.take(taken('d1', 1, weighed))
    await settled()
    const waiting = Array.from({ length: 500 }, (_, at) =>
      scribe.take(taken(`d${at + 2}`, 1, weighed)),
    )
    expect(await scribe.take(taken('d900', 1, weighed))).toEqual({
      ...{ type: 'fault', code: 'busy', lane: 'd900', n: 1 },
    })
    await journal.flushes.release()
    const answers = await Promise.all([first, ...waiting])
    expect(answers.every((answer) => 'status' in answer && answer.status === 'applied')).toBe(true)
  })

  it('turns away whoever comes after it was stopped, once the last batch is done', async () => {
    const { scribe, take, journal, time } = bench()
    journal.flushes.hold()
    const answer = take('d1', 1, weighed)
    await settled()
    const stopped = scribe.stop()
    expect(await take('d2', 1, weighed)).toMatchObject({ code: 'busy' })
    await journal.flushes.release()
    await stopped
    expect(await answer).toEqual({ status: 'applied', version: 1 })
    expect(time.alarmCount).toBe(0)
  })
})

describe('a rule that throws', () => {
  it.each([
    ['in deciding', brokenRule],
    ['by an event that could not be read back', brokenEvent],
  ])('%s applies nothing and is logged with the command', async (_how, body) => {
    const { take, scribe, journal, logged, frames } = bench()
    await take('d1', 1, claimNest(1))
    const before = hashText(canonical(scribe.durable.board))
    const answer = await take('d1', 2, body)
    expect(answer).toEqual({ type: 'fault', code: 'internal', lane: 'd1', n: 2 })
    expect(hashText(canonical(scribe.durable.board))).toBe(before)
    expect(journal.entries).toHaveLength(1)
    expect(frames).toHaveLength(1)
    expect(logged).toMatchObject([{ fields: { lane: 'd1', n: 2 } }])
  })

  it('harms nobody in the same batch and leaves the number free', async () => {
    const { take } = bench()
    const answers = await Promise.all([
      take('d1', 1, weighed),
      take('d2', 1, brokenRule),
      take('d3', 1, weighed),
    ])
    expect(answers).toMatchObject([{ version: 1 }, { code: 'internal' }, { version: 2 }])
    expect(await take('d2', 1, weighed)).toEqual({ status: 'applied', version: 3 })
  })
})

describe('the room clock', () => {
  it('never goes back behind the last record', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, weighed)
    time.setRoomClock(noon - 5_000)
    await take('d1', 2, weighed)
    expect(journal.entries.map((entry) => entry.atMs)).toEqual([noon, noon])
  })

  it('counts the wait for a flush into the age of an ask', async () => {
    const { take, journal, time } = bench()
    journal.flushes.hold()
    const first = take('d1', 1, weighed)
    await settled()
    const late = take('d2', 1, claimNest(1), { notedAgoMs: 9_000 })
    await time.pass(7_000)
    await journal.flushes.release()
    await first
    expect(await late).toEqual({ status: 'rejected', why: { code: 'Expired' } })
  })

  it('counts that wait in real time where the room runs faster', async () => {
    const { take, journal, time } = bench({ speed: 10 })
    journal.flushes.hold()
    const first = take('d1', 1, weighed)
    await settled()
    const inTime = take('d2', 1, claimNest(1), { notedAgoMs: 9_000 })
    await time.pass(3_000)
    await journal.flushes.release()
    await first
    expect(await inTime).toMatchObject({ status: 'applied' })
  })
})
