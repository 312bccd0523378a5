// A record made too quickly to be true: under fifteen seconds a bird. It is kept and marked, and the lead
// is told once, privately. And counting back: fewer birds than live in the nest means one is out.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { Given, Order, Said, Turn } from '../support/given.ts'
import { type Clock, claimed, clock, ended, nestOf, opened } from '../support/roomBuilder.ts'
import { ana, ben, birdsE, birdsF, f1, f2, f3, f4, nestE, nestF, room } from './smallRoom.ts'

const ten = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10' } as const
const opening = room.and(...opened(ten))
const answer = (birds: readonly BirdId[], more: object = {}): Order =>
  ({
    type: 'AnswerBirds',
    nest: nestF,
    claimNo: 10,
    answers: birds.map((bird) => ({ bird, outcome: 'ate' as const })),
    ...more,
  }) as Order
const at = (time: Clock, agoMs = 0): Said => ({ by: ana, at: time, agoMs })
const isMarked = ({ events }: Turn) =>
  events.some((event) => event.type === 'RoundRecorded' && event.marks.includes('tooQuick'))
const told = ({ board }: Given) => board.notices.filter(({ why }) => why === 'tooQuick')

const rows: readonly { row: string; order: Order; said: Said; isQuick: boolean }[] = [
  { row: 'four birds in 59 s', order: answer(birdsF), said: at('09:10:59'), isQuick: true },
  { row: 'four birds in 60 s', order: answer(birdsF), said: at('09:11'), isQuick: false },
  { row: 'one bird in 14 s', order: answer([f1]), said: at('09:10:14'), isQuick: true },
  { row: 'one bird in 15 s', order: answer([f1]), said: at('09:10:15'), isQuick: false },
  {
    row: 'four birds in 59 s, told a minute later',
    order: answer(birdsF),
    said: at('09:11:59', 60_000),
    isQuick: true,
  },
  {
    row: 'one that ate and three that refused, in 16 s',
    order: {
      ...{ type: 'AnswerBirds', nest: nestF, claimNo: 10 },
      answers: [
        { bird: f1, outcome: 'ate' },
        ...[f2, f3, f4].map((bird) => ({ bird, outcome: 'refused' as const })),
      ],
    },
    said: at('09:10:16'),
    isQuick: false,
  },
  {
    row: 'four that were not fed, in 5 s',
    order: {
      ...{ type: 'AnswerBirds', nest: nestF, claimNo: 10 },
      answers: birdsF.map((bird) => ({ bird, outcome: 'notFed', reason: 'asleep' })),
    },
    said: at('09:10:05'),
    isQuick: false,
  },
]

describe('a quick record', () => {
  it.each(rows)('$row: $isQuick', ({ order, said, isQuick }) => {
    const turn = opening.when(order, said)
    expect(isMarked(turn)).toBe(isQuick)
    expect(told(turn.room)).toHaveLength(isQuick ? 1 : 0)
  })

  it('is kept whole, and its birds count as fed', () => {
    const { board } = opening.when(answer(birdsF), at('09:10:20')).room
    expect(board.nests[nestF]?.hands).toEqual({ type: 'free' })
    expect(board.nests[nestF]?.rounds.at(-1)).toMatchObject({ no: 10, marks: ['tooQuick'] })
    expect(board.birds[f1]?.feeds.at(-1)).toMatchObject({ no: 10, outcome: 'ate' })
  })

  it('is told the lead with the visit and the person', () => {
    const { room: after } = opening.when(answer(birdsF), at('09:10:20'))
    expect(told(after)).toMatchObject([{ nest: nestF, person: ana, visit: 10 }])
  })

  it('of one bird after another counts the birds together', () => {
    const first = opening.when(answer([f1]), at('09:10:16'))
    const second = first.room.when(answer([f2]), at('09:10:20'))
    expect([isMarked(first), isMarked(second)]).toEqual([false, true])
    expect(told(second.room)).toHaveLength(1)
    const slow = first.room.when(answer([f2]), at('09:10:31'))
    expect(isMarked(slow)).toBe(false)
    const again = first.room.when(answer([f1]), at('09:10:20'))
    expect(isMarked(again)).toBe(false)
  })

  it('is told once while the lead has not read of this person', () => {
    const first = opening.when(answer(birdsF), at('09:10:20')).room
    const second = first
      .and(...opened({ nest: nestE, no: 11, by: ana, birds: birdsE, at: '09:11' }))
      .when({ ...answer(birdsE), nest: nestE, claimNo: 11 } as Order, at('09:11:10')).room
    expect(told(second)).toHaveLength(1)
    expect(second.board.nests[nestE]?.rounds.at(-1)?.marks).toEqual(['tooQuick'])
    const another = first
      .and(...opened({ nest: nestE, no: 11, by: ben, birds: birdsE, at: '09:11' }))
      .when({ ...answer(birdsE), nest: nestE, claimNo: 11 } as Order, {
        by: ben,
        at: '09:11:10',
      }).room
    expect(told(another)).toHaveLength(2)
  })
})

const shortOf = ({ board }: Given) => board.nests[nestF]?.short ?? null

describe('counting back', () => {
  const short = opening.when(answer(birdsF, { back: 3 }), at('09:14'))

  it('of fewer birds than live in the nest says at once that one is out', () => {
    short.includes({ type: 'BirdsShort', nest: nestF, no: 10, missing: 1, by: ana } as never)
    expect(shortOf(short.room)).toMatchObject({ missing: 1, no: 10, sinceMs: clock('09:14') })
  })

  it('of all of them, or none made, says nothing', () => {
    opening.when(answer(birdsF, { back: 4 }), at('09:14')).leavesOut('BirdsShort', 'BirdsFound')
    opening.when(answer(birdsF), at('09:14')).leavesOut('BirdsShort')
    opening.when(answer(birdsF, { back: 5 }), at('09:14')).leavesOut('BirdsShort')
  })

  it('of fewer still says how many', () => {
    const none = opening.when(answer(birdsF, { back: 0, door: 'notSeen' }), at('09:14'))
    none.includes({ type: 'BirdsShort', missing: 4 } as never)
    expect(none.room.board.nests[nestF]?.rounds.at(-1)).toMatchObject({ back: 0, door: 'notSeen' })
  })

  it('stands until it is found, by anybody', () => {
    expect(shortOf(short.room.whenClock('11:00').room)).toMatchObject({ missing: 1 })
    const found = short.room.when({ type: 'BirdFound', nest: nestF }, { by: ben, at: '09:20' })
    found.gives({ type: 'BirdsFound', nest: nestF, by: ben })
    expect(shortOf(found.room)).toBeNull()
    found.room.when({ type: 'BirdFound', nest: nestF }, { by: ana, at: '09:21' }).gives()
  })

  it('in full at the next visit ends it', () => {
    const next = short.room
      .and(...opened({ ...ten, no: 11, by: ben, at: '09:40' }))
      .when(answer(birdsF, { claimNo: 11, back: 4 }), { by: ben, at: '09:44' })
    next.includes({ type: 'BirdsFound', nest: nestF, by: ben } as never)
  })

  it('short again keeps since when it is watched for', () => {
    const next = short.room
      .and(...opened({ ...ten, no: 11, by: ben, at: '09:40' }))
      .when(answer(birdsF, { claimNo: 11, back: 2 }), { by: ben, at: '09:44' }).room
    expect(shortOf(next)).toMatchObject({ missing: 2, no: 11, sinceMs: clock('09:14') })
  })

  it('of an older visit says nothing against a later one', () => {
    const nine = { ...ten, no: 9, at: '08:50', by: ben } as const
    const past = room.and(claimed(nine), ended(nine, 'givenBack', '08:51'), ...opened(ten))
    const counted = past.when(answer(birdsF, { back: 4 }), at('09:14')).room
    const late: Order = { ...answer([f1], { back: 1 }), claimNo: 9 } as Order
    counted.when(late, { by: ben, at: '09:20', startedAt: '08:52' }).leavesOut('BirdsShort')
  })

  it('is found in a nest nobody knows: that is set aside', () => {
    room
      .when({ type: 'BirdFound', nest: nestOf(99) }, { by: ben, at: '09:20' })
      .includes({ type: 'ReportSetAside', why: 'nestUnknown' } as never)
  })
})
