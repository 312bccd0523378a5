// When a bird is due and from when it may be fed. Each row says what had happened to
// one bird and the instants that follow. Only ate, some and assisted are feeds; everything else delays
// or hurries, and counts as no feed.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import { outcomes } from '../../shared/board/constants.ts'
import type { EventOf, RoomEvent } from '../../shared/board/events.ts'
import { birdDueAtMs, birdReadyAtMs, lastFedAtMs } from '../../shared/rules/due.ts'
import { type Given, given, known } from '../support/given.ts'
import {
  type Clock,
  clock,
  dayOpened,
  held,
  planEvery,
  released,
  round,
} from '../support/roomBuilder.ts'
import { ana, birdsS, f1, halfHourly, hours, iris, lena, nestF, unfedRoom } from './smallRoom.ts'

const bird = (room: Given, id: BirdId) => known(room.board.birds[id], id)
const dueOf = (room: Given, id: BirdId = f1) => birdDueAtMs(room.board, bird(room, id))
const readyOf = (room: Given, id: BirdId = f1) => birdReadyAtMs(room.board, bird(room, id))

/** f1 in the room before any feed, and then what the row says. F is on 30 minutes, a tenth early. */
const f1After = (...past: readonly RoomEvent[]) => given(...unfedRoom, ...past)
const visit = (no: number, at: Clock, outcome: EventOf<'RoundRecorded'>['answers'][0]['outcome']) =>
  round({ nest: nestF, no, by: iris, birds: [f1], at, outcome })
const looked = (at: Clock, crop: 'full' | 'empty', fullSince?: Clock): RoomEvent => ({
  type: 'BirdsLooked',
  v: 1,
  nest: nestF,
  by: ana,
  atMs: clock(at),
  looks: [
    { bird: f1, crop, ...(fullSince === undefined ? {} : { fullSinceMs: clock(fullSince) }) },
  ],
})
const lifted = (at: Clock): RoomEvent => ({
  type: 'HoldLifted',
  v: 1,
  nest: nestF,
  bird: f1,
  by: lena,
  atMs: clock(at),
  why: 'walks well',
})
const heldOnce = held({ nest: nestF, bird: f1 }, { by: lena, at: '08:50', lookAgain: '09:50' })

type Row = { name: string; past: readonly RoomEvent[]; due: Clock; ready: Clock; day?: number }
const rows: readonly Row[] = [
  { name: 'never fed, from the opening', past: [], due: '07:00', ready: '06:57' },
  { name: 'ate', past: [visit(1, '08:40', 'ate')], due: '09:10', ready: '09:07' },
  { name: 'took some', past: [visit(1, '08:40', 'some')], due: '09:10', ready: '09:07' },
  { name: 'was assisted', past: [visit(1, '08:40', 'assisted')], due: '09:10', ready: '09:07' },
  {
    name: 'refused since it was fed: half the interval from then',
    past: [visit(1, '08:40', 'ate'), visit(2, '09:10', 'refused')],
    due: '09:25',
    ready: '09:22',
  },
  {
    name: 'refused twice: from the later',
    past: [visit(1, '08:40', 'ate'), visit(2, '09:10', 'refused'), visit(3, '09:25', 'refused')],
    due: '09:40',
    ready: '09:37',
  },
  {
    name: 'fed after it refused',
    past: [visit(1, '08:40', 'refused'), visit(2, '08:55', 'some')],
    due: '09:25',
    ready: '09:22',
  },
  {
    name: 'refused, said late, before it was fed',
    past: [visit(2, '08:55', 'ate'), visit(1, '08:40', 'refused')],
    due: '09:25',
    ready: '09:22',
  },
  {
    name: 'refused, and not fed after that: half an interval from the later look',
    past: [visit(1, '08:40', 'ate'), visit(2, '09:10', 'refused'), visit(3, '09:20', 'notFed')],
    due: '09:35',
    ready: '09:35',
  },
  {
    name: 'seen full before the feed',
    past: [visit(1, '08:40', 'ate'), looked('08:38', 'full', '08:30')],
    due: '09:10',
    ready: '09:07',
  },
  {
    name: 'seen full after the feed',
    past: [visit(1, '08:40', 'ate'), looked('09:26', 'full', '09:10')],
    due: '09:40',
    ready: '09:37',
  },
  {
    name: 'held, and the hold ended after it was due',
    past: [visit(1, '08:40', 'ate'), heldOnce, lifted('09:30')],
    due: '09:30',
    ready: '09:27',
  },
  {
    name: 'held, and the hold ended before it was due',
    past: [visit(1, '08:40', 'ate'), heldOnce, lifted('08:55')],
    due: '09:10',
    ready: '09:07',
  },
  {
    name: 'fed before the day opened',
    past: [visit(1, '06:10', 'ate')],
    due: '07:00',
    ready: '06:57',
  },
  {
    name: 'was fed so late that it would be due after closing',
    past: [visit(1, '20:50', 'ate')],
    due: '07:00',
    ready: '06:57',
    day: 1,
  },
  {
    name: 'last fed yesterday evening',
    past: [visit(1, '20:50', 'ate'), dayOpened(hours, 1)],
    due: '07:00',
    ready: '06:57',
    day: 1,
  },
]

describe('a bird on thirty minutes, a tenth of it early, that', () => {
  it.each(rows)('$name is due at $due', ({ past, due, day }) => {
    expect(dueOf(f1After(...past))).toBe(clock(due, day))
  })

  it.each(rows)('$name may be fed from $ready', ({ past, ready, day }) => {
    expect(readyOf(f1After(...past))).toBe(clock(ready, day))
  })

  it('was not fed since its last feed is looked at after half the interval', () => {
    const after = f1After(visit(1, '08:40', 'ate'), visit(2, '09:10', 'notFed'))
    expect(dueOf(after)).toBe(clock('09:25'))
  })

  it('was seen empty is due then', () => {
    expect(dueOf(f1After(visit(1, '09:05', 'ate'), looked('09:20', 'empty')))).toBe(clock('09:20'))
  })

  it.each(outcomes)('%s moves when it was last fed only if that is a feed', (outcome) => {
    const isFeed = ['ate', 'some', 'assisted'].includes(outcome)
    const after = f1After(visit(1, '08:40', 'ate'), visit(2, '09:10', outcome))
    expect(dueOf(after)).toBe(clock(isFeed ? '09:40' : '09:25'))
  })

  it('was fed is due from the start of that round, not from its record', () => {
    const slow = round({
      nest: nestF,
      no: 1,
      by: iris,
      birds: [f1],
      at: '08:40',
      recorded: '08:58',
    })
    expect(dueOf(f1After(slow))).toBe(clock('09:10'))
  })

  it('was fed by two records is due from the later start, whichever came first', () => {
    const feeds = [visit(1, '08:40', 'ate'), visit(2, '08:52', 'ate')]
    expect(dueOf(f1After(...feeds))).toBe(clock('09:22'))
    expect(dueOf(f1After(...feeds.toReversed()))).toBe(clock('09:22'))
  })

  it('was fed longer ago than the board keeps feeds is still due from the last feed', () => {
    const refusals = [
      '09:10',
      '09:15',
      '09:20',
      '09:25',
      '09:30',
      '09:35',
      '09:40',
      '09:45',
    ] as const
    const after = f1After(
      visit(1, '08:40', 'ate'),
      ...refusals.map((at, index) => visit(2 + index, at, 'refused')),
    )
    expect(after.board.birds[f1]?.feeds.length).toBeLessThanOrEqual(6)
    expect(dueOf(after)).toBe(clock('10:00'))
    expect(lastFedAtMs(bird(after, f1))).toBe(clock('08:40'))
  })

  it('is released is due from then', () => {
    const after = f1After(released(birdsS, halfHourly, '09:20'))
    expect(dueOf(after, birdsS[0])).toBe(clock('09:20'))
  })

  it('is still warming, or on no plan, is never due', () => {
    expect(dueOf(f1After(), birdsS[0])).toBeNull()
    expect(readyOf(f1After(), birdsS[0])).toBeNull()
  })

  it('gets another plan is due by that one', () => {
    const slower = planEvery(halfHourly, 45, { technique: 'gapeSyringe', earlyPercent: 0 })
    const after = f1After(visit(1, '08:40', 'ate'), slower)
    expect(dueOf(after)).toBe(clock('09:25'))
    expect(readyOf(after)).toBe(clock('09:25'))
  })
})
