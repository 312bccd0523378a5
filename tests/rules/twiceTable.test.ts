// Fed twice: two records with the same bird less than half its interval apart, neither given as extra.
// Which pairs are doubted, what ends a doubt, and that it does not come back once somebody has looked.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { openPairs, twicePairs } from '../../shared/rules/twice.ts'
import type { Given, Order, Said } from '../support/given.ts'
import { known } from '../support/given.ts'
import { type Clock, claimed, clock, ended, opened, round } from '../support/roomBuilder.ts'
import { ana, ben, birdsF, f1, f2, f3, f4, iris, nestF, nestG, room } from './smallRoom.ts'

/** F was last fed under number 1 at 08:40, every 30 min: half of that is a quarter of an hour. */
const answer = (birds: readonly (typeof f1)[], more: object = {}): Order =>
  ({
    type: 'AnswerBirds',
    nest: nestF,
    answers: birds.map((bird) => ({ bird, outcome: 'ate' as const })),
    ...more,
  }) as Order
const says = (startedAt: Clock, at: Clock = '09:06'): Said => ({ by: ana, at, startedAt })
const pairsOf = ({ board }: Given) =>
  openPairs(board, known(board.nests[nestF], 'nest F')).map(({ pair, birds }) => ({ pair, birds }))
const doubtsOf = ({ board }: Given) =>
  (board.nests[nestF]?.doubts ?? []).flatMap(({ kind, pair, birds, aboutAtMs, owner }) =>
    kind === 'twice' ? [{ pair, birds, aboutAtMs, owner }] : [],
  )
const twice = (birds: readonly (typeof f1)[], about: Clock, pair = [1, 6]) => [
  { pair, birds, aboutAtMs: clock(about), owner: null },
]

type Row = {
  readonly row: string
  readonly given?: Given
  readonly order: Order
  readonly startedAt: Clock
  readonly doubts: readonly object[]
}
const extraClaim = { birds: [...birdsF], reason: 'gaping hard', afterFeed: 1 }
const extra = (afterFeed: number): readonly RoomEvent[] => [
  {
    ...claimed({ nest: nestF, no: 6, by: ana, birds: birdsF, at: '08:52' }),
    extra: { ...extraClaim, afterFeed },
  } as RoomEvent,
]

const rows: readonly Row[] = [
  {
    row: 'less than half an interval after',
    order: answer([f1, f2]),
    startedAt: '08:54:59',
    doubts: twice([f1, f2], '08:54:59'),
  },
  { row: 'half an interval after', order: answer(birdsF), startedAt: '08:55', doubts: [] },
  {
    row: 'less than half an interval before',
    order: answer([f1]),
    startedAt: '08:25:01',
    doubts: twice([f1], '08:40'),
  },
  { row: 'half an interval before', order: answer([f1]), startedAt: '08:25', doubts: [] },
  {
    row: 'of a time somebody says',
    order: answer([f3], { saidAtMs: clock('08:50') }),
    startedAt: '08:50',
    doubts: twice([f3], '08:50'),
  },
  {
    row: 'of a bird that refused',
    order: {
      type: 'AnswerBirds',
      nest: nestF,
      answers: [
        { bird: f1, outcome: 'refused' },
        { bird: f2, outcome: 'notFed' },
      ],
    },
    startedAt: '08:50',
    doubts: [],
  },
  {
    row: 'of a bird that took some, or was assisted',
    order: {
      type: 'AnswerBirds',
      nest: nestF,
      answers: [
        { bird: f1, outcome: 'some' },
        { bird: f2, outcome: 'assisted' },
      ],
    },
    startedAt: '08:50',
    doubts: twice([f1, f2], '08:50'),
  },
  {
    row: 'of other birds than the first',
    given: room.and(round({ nest: nestF, no: 5, by: ben, birds: [f1, f2], at: '09:00' })),
    order: answer([f3, f4]),
    startedAt: '09:01',
    doubts: [],
  },
  {
    row: 'of a bird whose interval was shorter at one of the two',
    given: room.and(
      round({ nest: nestF, no: 5, by: ben, birds: [f1], at: '08:56', intervalMs: 10 * minuteMs }),
    ),
    order: answer([f1]),
    startedAt: '09:02',
    doubts: [],
  },
  {
    row: 'given as extra after the first',
    given: room.and(...extra(1)),
    order: answer(birdsF, { claimNo: 6 }),
    startedAt: '08:52',
    doubts: [],
  },
  {
    row: 'given as extra after some other',
    given: room.and(...extra(3)),
    order: answer(birdsF, { claimNo: 6 }),
    startedAt: '08:52',
    doubts: twice(birdsF, '08:52'),
  },
]

describe('a second record', () => {
  it.each(rows)('$row', ({ given = room, order, startedAt, doubts }) => {
    const after = given.when(order, says(startedAt)).room
    expect(doubtsOf(after)).toMatchObject(doubts)
    expect(pairsOf(after)).toHaveLength(doubts.length)
  })

  it('that comes in two parts is one doubt about all its birds', () => {
    const claim = { nest: nestF, no: 6, by: ana, birds: birdsF, at: '08:50' } as const
    const given = room.and(claimed(claim), ended(claim, 'givenBack', '08:51'))
    const first = given.when(answer([f1], { claimNo: 6 }), says('08:50')).room
    const both = first.when(answer([f2, f3], { claimNo: 6 }), says('08:50', '09:06:10')).room
    expect(doubtsOf(both)).toMatchObject(twice([f1, f2, f3], '08:50'))
  })

  it('that lies too close to two others is two doubts', () => {
    const more = room.and(round({ nest: nestF, no: 5, by: ben, birds: birdsF, at: '09:00' }))
    const after = more.when(answer([f1]), says('08:50')).room
    expect(doubtsOf(after).map(({ pair }) => pair)).toEqual([
      [1, 6],
      [5, 6],
    ])
  })

  it('leaves no more than four doubts, the oldest going first', () => {
    const starts: readonly Clock[] = ['08:42', '08:43', '08:44', '08:45']
    const after = starts.reduce(
      (now, startedAt) => now.when(answer([f1]), says(startedAt)).room,
      room,
    )
    expect(after.board.nests[nestF]?.doubts).toHaveLength(4)
    expect(pairsOf(after).map(({ pair }) => pair)).toEqual(doubtsOf(after).map(({ pair }) => pair))
  })
})

const twiceRoom = room.when(answer([f1, f2]), says('08:50')).room
const theDoubt = known(twiceRoom.board.nests[nestF]?.doubts.at(0), 'doubt')
const looked = (...birds: readonly (typeof f1)[]): Order => ({
  type: 'Looked',
  nest: nestF,
  looks: birds.map((bird) => ({ bird, crop: 'full' as const })),
})
const later = { by: ben, at: '09:08' } as const

describe('a doubt about a bird fed twice', () => {
  it('asks nobody and warns everybody at once', () => {
    const claim: Order = { type: 'ClaimNest', nest: nestF }
    twiceRoom.when(claim, { by: ana, at: '09:20:01' }).refuses({ code: 'InDoubt' })
    const fresh = room
      .and(round({ nest: nestF, no: 5, by: iris, birds: [f3, f4], at: '08:35' }))
      .when(answer([f3, f4]), { ...says('08:30'), at: '09:10' }).room
    fresh.when(claim, { by: ben, at: '09:10' }).refuses({ code: 'InDoubt' })
    const seenDoubts = (fresh.board.nests[nestF]?.doubts ?? []).map(({ no }) => no)
    fresh
      .when({ ...claim, seenDoubts } as Order, { by: ben, at: '09:10' })
      .includes({ type: 'NestClaimed', person: ben } as never)
  })

  it('ends when the record is taken back', () => {
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 6, wasFed: 'no' }
    const turn = twiceRoom.when(take, later)
    turn.includes({ type: 'DoubtEnded', nest: nestF, no: theDoubt.no, how: 'notTwice' } as never)
    expect(doubtsOf(turn.room)).toEqual([])
  })

  it('ends when the other record is taken back', () => {
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 1, wasFed: 'no' }
    expect(doubtsOf(twiceRoom.when(take, later).room)).toEqual([])
  })

  it('ends when the record is corrected, and stands for the birds it is still true of', () => {
    const correct = (...birds: readonly (typeof f1)[]): Order => ({
      type: 'CorrectFeed',
      nest: nestF,
      claimNo: 6,
      answers: birds.map((bird) => ({ bird, outcome: 'refused' as const })),
      reason: 'tapped wrong',
    })
    expect(doubtsOf(twiceRoom.when(correct(f1, f2), later).room)).toEqual([])
    expect(doubtsOf(twiceRoom.when(correct(f1), later).room)).toMatchObject(twice([f2], '08:50'))
  })

  it('ends when the record is put onto another nest', () => {
    const move: Order = {
      type: 'CorrectFeed',
      nest: nestF,
      claimNo: 6,
      answers: [],
      reason: 'G',
      toNest: nestG,
    }
    const { board } = twiceRoom.when(move, later).room
    expect(doubtsOf({ board } as Given)).toEqual([])
    expect(board.nests[nestG]?.doubts).toMatchObject([{ kind: 'twice', pair: [3, 8] }])
  })

  it('ends when every bird of it was looked at, and no sooner', () => {
    const one = twiceRoom.when(looked(f1), later)
    one.leavesOut('DoubtEnded')
    const both = one.room.when(looked(f2), { by: ben, at: '09:09' })
    both.includes({ type: 'DoubtEnded', nest: nestF, no: theDoubt.no, how: 'looked' } as never)
    expect(doubtsOf(twiceRoom.when(looked(f1, f2, f3), later).room)).toEqual([])
  })

  it('does not come back once somebody has looked', () => {
    const settled = twiceRoom.when(looked(f1, f2), later).room
    const next = settled.when(answer([f3]), says('08:58', '09:09')).room
    expect(doubtsOf(next)).toEqual([])
    expect(twicePairs(next.board, nestF)).toHaveLength(1)
  })

  it('ends unanswered when it is two intervals old', () => {
    const old = twiceRoom.whenClock('10:06')
    old.includes({ type: 'DoubtEnded', no: theDoubt.no, how: 'neverAnswered' } as never)
    expect(doubtsOf(old.room.when(answer([f3]), says('09:50', '10:07')).room)).toEqual([])
  })

  it('is nobody’s to answer under its number, which names no visit', () => {
    const all: Order = {
      type: 'SayWhatHappened',
      nest: nestF,
      claimNo: theDoubt.no,
      said: { type: 'all' },
    }
    const said = twiceRoom.when(all, later)
    said.leavesOut('RoundRecorded')
    expect(doubtsOf(said.room)).toHaveLength(1)
    const again = twiceRoom.when(answer([f3], { claimNo: theDoubt.no }), says('08:58', '09:08'))
    again.leavesOut('DoubtEnded')
    expect(doubtsOf(again.room)).toHaveLength(1)
  })

  it('leaves every feed as it was recorded', () => {
    expect(twiceRoom.board.birds[f1]?.feeds.map(({ no }) => no)).toEqual([1, 6])
  })
})

describe('the order in which two records arrive', () => {
  it('makes no difference', () => {
    const start = room.and(...opened({ nest: nestF, no: 6, by: ben, birds: birdsF, at: '09:00' }))
    const first = answer([f1, f2])
    const second = answer([f2, f3])
    const one = start.when(first, says('08:46')).room.when(second, says('08:50', '09:07')).room
    const other = start.when(second, says('08:50')).room.when(first, says('08:46', '09:07')).room
    const times = (given: Given) =>
      doubtsOf(given)
        .map(({ birds, aboutAtMs }) => ({ birds, aboutAtMs }))
        .toSorted((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1))
    expect(times(one)).toHaveLength(3)
    expect(times(other)).toEqual(times(one))
  })
})
