// What time makes due happens by itself, once, and before anything a person asks afterwards.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../../shared/base/values.ts'
import { settled } from '../../support/fakeTimers.ts'
import { addPerson, bench, claimNest, weighed } from './bench.ts'
import { noon, stubBrain, stubLeaseMs } from './stubBrain.ts'

const lapse = (version: number) => ({
  ...{ version, cause: { type: 'clock' }, by: null, device: null },
  events: [{ type: 'ClaimEnded', how: 'lapsed' }],
})

describe('a rule about time', () => {
  it('is applied when its instant comes, though nobody does anything', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    await time.pass(stubLeaseMs - 1)
    expect(journal.entries).toHaveLength(1)
    await time.pass(1)
    expect(journal.entries).toMatchObject([{ version: 1 }, lapse(2)])
    expect(journal.entries[1]?.atMs).toBe(noon + stubLeaseMs)
  })

  it('is applied once', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    await time.pass(20 * minuteMs)
    expect(journal.entries).toHaveLength(2)
  })

  it('is applied at the room’s pace in a room that runs faster', async () => {
    const { take, journal, time } = bench({ speed: 10 })
    await take('d1', 1, claimNest(1))
    await time.pass(stubLeaseMs / 10)
    expect(journal.entries).toMatchObject([{ version: 1 }, lapse(2)])
  })

  it('is applied within five seconds when the machine slept through the instant', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    time.setRoomClock(noon + 2 * stubLeaseMs)
    await time.pass(5_000)
    expect(journal.entries).toMatchObject([{ version: 1 }, lapse(2)])
  })

  it('comes before the command that finds it due, as a record of its own', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    time.setRoomClock(noon + stubLeaseMs)
    const answer = await take('d2', 1, claimNest(1))
    expect(answer).toEqual({ status: 'applied', version: 3 })
    expect(journal.entries).toMatchObject([{ version: 1 }, lapse(2), { version: 3, by: 'p2' }])
    expect(journal.sizes).toEqual([1, 2])
  })

  it('is written even when the command after it is refused', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    time.setRoomClock(noon + stubLeaseMs)
    await take('d2', 1, claimNest(9))
    expect(journal.entries).toMatchObject([{ version: 1 }, lapse(2)])
  })

  it('fires for each that is due, the earliest first', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(2))
    await time.pass(1_000)
    await take('d2', 1, claimNest(1))
    time.setRoomClock(noon + 5 * minuteMs)
    await time.pass(5_000)
    expect(journal.entries.slice(2)).toMatchObject([
      { version: 3, events: [{ nest: 'n2', atMs: noon + stubLeaseMs }] },
      { version: 4, events: [{ nest: 'n1', atMs: noon + stubLeaseMs + 1_000 }] },
    ])
  })

  it('holds one timer and no more', async () => {
    const { take, time } = bench()
    await Promise.all([take('d1', 1, claimNest(1)), take('d2', 1, claimNest(2))])
    await take('d3', 1, weighed)
    expect(time.alarmCount).toBe(1)
  })

  it('that throws is asked again after a while and harms no record', async () => {
    const { scribe, logged, time, journal } = bench({
      brain: {
        decideTime: () => {
          throw new Error('a rule with a mistake in it')
        },
        nextWakeAtMs: () => 0,
      },
    })
    await scribe.tick()
    expect(logged).toHaveLength(1)
    await time.pass(minuteMs)
    expect(logged).toHaveLength(13)
    expect(journal.entries).toEqual([])
  })

  it('that never comes to rest is stopped', async () => {
    const event = { type: 'RoomOpened', v: 1, atMs: noon } as const
    const { scribe, logged, journal } = bench({ brain: { decideTime: () => [event] } })
    await scribe.tick()
    expect(logged).toHaveLength(1)
    expect(journal.entries).toEqual([])
  })
})

describe('a record of the server itself', () => {
  it('comes before the time rules it may put off', async () => {
    const opened = { type: 'RoomOpened', v: 1, atMs: noon } as const
    const { scribe, time, journal } = bench({
      brain: {
        decideTime: (board, nowMs) =>
          board.room.openedAtMs > 0 ? [] : stubBrain.decideTime(board, nowMs),
      },
    })
    time.setRoomClock(noon + stubLeaseMs)
    await scribe.record(() => [opened])
    await scribe.tick()
    expect(journal.entries).toMatchObject([{ version: 1, events: [opened] }])
  })
})

describe('the machine’s wall clock', () => {
  it('that jumps moves civil time by a record within five seconds', async () => {
    const { scribe, time, journal } = bench()
    await scribe.tick()
    time.wallOffsetMs = 60 * minuteMs
    await time.pass(5_000)
    await time.pass(60_000)
    expect(journal.entries).toMatchObject([
      {
        ...{ version: 1, cause: { type: 'server' } },
        events: [{ type: 'CivilOffsetChanged', offsetMs: 60 * minuteMs }],
      },
    ])
    expect(journal.entries[0]?.atMs).toBe(noon + 5_000)
  })

  it('is noticed in a room too busy ever to sleep until its next look', async () => {
    const { scribe, take, time, journal } = bench()
    await scribe.tick()
    time.wallOffsetMs = 60 * minuteMs
    for (const n of [1, 2, 3]) {
      await time.pass(2_000)
      await take('d1', n, weighed)
    }
    const moves = journal.entries.filter(({ cause }) => cause.type === 'server')
    expect(moves).toMatchObject([{ events: [{ type: 'CivilOffsetChanged' }] }])
  })

  it.each([-2_000, 2_000])('that is off by %i ms is left alone', async (offsetMs) => {
    const { scribe, time, journal } = bench()
    time.wallOffsetMs = offsetMs
    await scribe.tick()
    await time.pass(60_000)
    expect(journal.entries).toEqual([])
  })
})

describe('the planted mistakes', () => {
  it('answersBeforeFlush answers while the flush still runs', async () => {
    const { take, journal, story } = bench({ bugs: { answersBeforeFlush: true } })
    journal.flushes.hold()
    await take('d1', 1, weighed)
    expect(story).not.toContain('flushed')
    await journal.flushes.release()
  })

  it('shrugsAtFailedFlush acknowledges what is not on disk', async () => {
    const { take, journal } = bench({ bugs: { shrugsAtFailedFlush: true } })
    journal.flushes.isFailing = true
    expect(await take('d1', 1, weighed)).toMatchObject({ status: 'applied' })
    expect(journal.entries).toEqual([])
  })

  it('takesRepeatsAnew doubles a command, allowsLaneGaps loses one', async () => {
    const doubling = bench({ bugs: { takesRepeatsAnew: true } })
    await doubling.take('d1', 1, weighed)
    await doubling.take('d1', 1, weighed)
    expect(doubling.journal.entries).toHaveLength(2)
    const losing = bench({ bugs: { allowsLaneGaps: true } })
    expect(await losing.take('d1', 7, weighed)).toMatchObject({ status: 'applied' })
  })

  it('namesPrivateTextFirst writes the record before the text', async () => {
    const { take, story } = bench({ bugs: { namesPrivateTextFirst: true } })
    await take('d1', 1, addPerson('Ana'))
    expect(story.slice(0, 3)).toEqual(['written 1', 'flushed', 'private text written'])
  })

  it('sleepsThroughTime lets a claim stand for ever', async () => {
    const { take, journal, time } = bench({ bugs: { sleepsThroughTime: true } })
    await take('d1', 1, claimNest(1))
    await time.pass(20 * minuteMs)
    await settled()
    expect(journal.entries).toHaveLength(1)
  })
})
