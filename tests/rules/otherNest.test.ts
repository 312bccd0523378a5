// "That was F, not E": a record put onto the nest that was really fed. Both nests are due anew, the first
// record is kept and says where it went, bands tell which bird is meant, and hands never move.

import { describe, expect, it } from 'vitest'
import type { BirdId, NestId } from '../../shared/base/values.ts'
import type { Answer } from '../../shared/board/parts.ts'
import { nestDueAtMs } from '../../shared/rules/due.ts'
import { banded } from '../support/broodBuilder.ts'
import type { Given, Order, Said } from '../support/given.ts'
import {
  birdOf,
  type Clock,
  claimed,
  clock,
  nestOf,
  opened,
  round,
} from '../support/roomBuilder.ts'
import { ana, ben, halfHourly, inc1, lena, nestD, nestE, nestF, room } from './smallRoom.ts'

/** P and Q have red, blue and green birds; R has two without bands. */
const [nestP, nestQ, nestR] = [nestOf(11), nestOf(12), nestOf(13)] as const
const [p1, p2, p3] = [birdOf(31), birdOf(32), birdOf(33)] as const
const [q1, q2, q3] = [birdOf(41), birdOf(42), birdOf(43)] as const
const [r1, r2] = [birdOf(51), birdOf(52)] as const
const colours = ['red', 'blue', 'green'] as const
const brood = (id: NestId, label: string, birds: readonly BirdId[], isBanded = true) =>
  banded(id, {
    ...{ label, incubator: inc1, plan: halfHourly },
    birds: birds.map((bird, at) => ({ id: bird, band: isBanded ? (colours[at] ?? null) : null })),
  })

const broods = room.and(
  brood(nestP, 'P', [p1, p2, p3]),
  brood(nestQ, 'Q', [q1, q2, q3]),
  brood(nestR, 'R', [r1, r2], false),
  round({ nest: nestP, no: 21, by: ana, birds: [p1, p2, p3], at: '13:40' }),
  round({ nest: nestQ, no: 22, by: ana, birds: [q1, q2, q3], at: '13:38' }),
  round({ nest: nestR, no: 23, by: ana, birds: [r1, r2], at: '13:36' }),
)
/** Ana's visit of 14:10, recorded on P. */
const wrong = (answers: readonly Answer[]) =>
  broods
    .and(
      ...opened({
        nest: nestP,
        no: 30,
        by: ana,
        birds: answers.map(({ bird }) => bird),
        at: '14:10',
      }),
    )
    .when({ type: 'AnswerBirds', nest: nestP, claimNo: 30, answers }, { by: ana, at: '14:14' }).room
const allAte = [p1, p2, p3].map((bird) => ({ bird, outcome: 'ate' as const }))
const thatWas = (toNest: NestId, nest = nestP, claimNo = 30): Order => ({
  type: 'CorrectFeed',
  nest,
  claimNo,
  answers: [],
  reason: 'wrong nest',
  toNest,
})
const at1422: Said = { by: ana, at: '14:22' }
const dueOf = (given: Given, nest: NestId) => nestDueAtMs(given.board, nest)
const fedOf = (given: Given, birds: readonly BirdId[]) =>
  birds.map((bird) => {
    const feed = given.board.birds[bird]?.feeds.at(-1)
    return feed?.startedAtMs === clock('14:10') ? feed.outcome : null
  })

describe('a record put onto another nest', () => {
  const after = wrong(allAte).when(thatWas(nestQ), at1422)

  it('makes both nests due anew', () => {
    expect(dueOf(after.room, nestP)).toBe(clock('14:10'))
    expect(dueOf(after.room, nestQ)).toBe(clock('14:40'))
  })

  it('is kept where it was, and says where it went and that it counts no more', () => {
    const old = after.room.board.nests[nestP]?.rounds.find(({ no }) => no === 30)
    expect(old).toMatchObject({ isTakenBack: true, movedTo: nestQ, person: ana })
    expect(old?.birds).toEqual([p1, p2, p3])
  })

  it('stands on the other nest with its own start and feeder, as a late record', () => {
    const moved = after.events.find(({ type }) => type === 'RoundMoved')
    const no = moved?.type === 'RoundMoved' ? moved.toNo : 0
    expect(after.room.board.nests[nestQ]?.rounds.at(-1)).toMatchObject({
      ...{ no, person: ana, standing: 'late', startedAtMs: clock('14:10') },
      ...{ birds: [q1, q2, q3], isTakenBack: false, isSaid: false },
    })
  })

  it('says who fed, whoever says so', () => {
    const { board } = wrong(allAte).when(thatWas(nestQ), { by: lena, at: '14:22' }).room
    expect(board.nests[nestQ]?.rounds.at(-1)).toMatchObject({ person: ana })
  })

  it('is no bird fed twice', () => {
    const doubts = Object.values(after.room.board.nests).flatMap((nest) => nest.doubts)
    expect(doubts).toEqual([])
  })

  it('is a bird fed twice where the other nest was fed then too', () => {
    const both = wrong(allAte).and(
      round({ nest: nestQ, no: 31, by: ben, birds: [q1, q2, q3], at: '14:05' }),
    )
    const { board } = both.when(thatWas(nestQ), at1422).room
    expect(board.nests[nestQ]?.doubts).toMatchObject([{ kind: 'twice', birds: [q1, q2, q3] }])
  })

  it('can be put right once; said again it is nothing new', () => {
    after.room.when(thatWas(nestQ), { by: ana, at: '14:23' }).gives()
  })

  it('of a nest nobody knows, or of a visit nobody knows, is set aside', () => {
    const unknown = wrong(allAte).when(thatWas(nestOf(99)), at1422)
    unknown.includes({ type: 'ReportSetAside', why: 'nestUnknown' } as never)
    const never = wrong(allAte).when(thatWas(nestQ, nestP, 77), at1422)
    never.includes({ type: 'ReportSetAside', why: 'roundUnknown' } as never)
    expect(dueOf(unknown.room, nestP)).toBe(clock('14:40'))
  })
})

type Row = {
  readonly row: string
  readonly answers: readonly Answer[]
  readonly to: NestId
  readonly fed: readonly [readonly BirdId[], readonly (string | null)[]]
  readonly unknown?: object
}
const ate = { outcome: 'ate' } as const
const rows: readonly Row[] = [
  {
    row: 'band by band, each with its own outcome',
    answers: [
      { bird: p1, ...ate },
      { bird: p2, outcome: 'refused' },
      { bird: p3, outcome: 'some' },
    ],
    to: nestQ,
    fed: [
      [q1, q2, q3],
      ['ate', 'refused', 'some'],
    ],
  },
  {
    row: 'band by band, and of a bird nobody answered for nothing',
    answers: [
      { bird: p1, ...ate },
      { bird: p3, ...ate },
    ],
    to: nestQ,
    fed: [
      [q1, q2, q3],
      ['ate', null, 'ate'],
    ],
  },
  {
    row: 'as a whole where there are no bands',
    answers: allAte,
    to: nestR,
    fed: [
      [r1, r2],
      ['ate', 'ate'],
    ],
  },
  {
    row: 'as a whole, one of them having refused, not known which',
    answers: [
      { bird: p1, ...ate },
      { bird: p2, outcome: 'refused' },
    ],
    to: nestR,
    fed: [
      [r1, r2],
      ['ate', 'ate'],
    ],
    unknown: { outcome: 'refused', count: 1 },
  },
  {
    row: 'as a whole where every bird refused',
    answers: [
      { bird: p1, outcome: 'refused' },
      { bird: p2, outcome: 'refused' },
    ],
    to: nestR,
    fed: [
      [r1, r2],
      ['refused', 'refused'],
    ],
  },
  {
    row: 'as a whole, of more birds having refused than there are here',
    answers: [
      { bird: p1, ...ate },
      { bird: p2, outcome: 'refused' },
      { bird: p3, outcome: 'refused' },
    ],
    to: nestR,
    fed: [
      [r1, r2],
      ['ate', 'ate'],
    ],
    unknown: { outcome: 'refused', count: 2 },
  },
]

describe('the birds of the other nest are fed', () => {
  it.each(rows)('$row', ({ answers, to, fed: [birds, outcomes], unknown }) => {
    const after = wrong(answers).when(thatWas(to), at1422).room
    expect(fedOf(after, birds)).toEqual(outcomes)
    expect(after.board.nests[to]?.rounds.at(-1)?.notKnownWhich ?? null).toEqual(unknown ?? null)
    expect(fedOf(after, [p1, p2, p3])).toEqual([null, null, null])
  })

  it('though their technique is another, and the record is marked', () => {
    const tubed = wrong(allAte).when(thatWas(nestD), at1422)
    const moved = tubed.events.find(({ type }) => type === 'RoundRecorded')
    expect(moved).toMatchObject({ nest: nestD, marks: ['notSignedOff'] })
  })
})

describe('hands', () => {
  const hold = (nest: NestId, birds: readonly BirdId[], at: Clock) =>
    claimed({ nest, no: 40, by: ben, birds, at })

  it('stay on the nest the record was on', () => {
    const held = wrong(allAte).and(hold(nestP, [p1, p2, p3], '14:20'))
    const { board } = held.when(thatWas(nestQ), at1422).room
    expect(board.nests[nestP]?.hands).toMatchObject({ person: ben, birds: [p1, p2, p3] })
    expect(board.nests[nestQ]?.hands).toEqual({ type: 'free' })
  })

  it('on the other nest are told to stop, and end where no bird is left', () => {
    const held = wrong(allAte).and(hold(nestQ, [q1, q2, q3], '14:20'))
    const turn = held.when(thatWas(nestQ), at1422)
    turn.includes(
      { type: 'StopCalled', nest: nestQ, claimNo: 40, why: 'fedByOther' } as never,
      { type: 'ClaimEnded', nest: nestQ, claimNo: 40, how: 'calledOff' } as never,
    )
  })

  it('on the other nest keep the birds the record says nothing of', () => {
    const held = wrong([{ bird: p1, ...ate }]).and(hold(nestQ, [q1, q2, q3], '14:20'))
    const { board } = held.when(thatWas(nestQ), at1422).room
    expect(board.nests[nestQ]?.hands).toMatchObject({ person: ben, birds: [q2, q3] })
  })

  it('in which the visit still is are not emptied: its birds are to be answered again', () => {
    const half = broods
      .and(...opened({ nest: nestP, no: 30, by: ana, birds: [p1, p2, p3], at: '14:10' }))
      .when(
        { type: 'AnswerBirds', nest: nestP, claimNo: 30, answers: [{ bird: p1, ...ate }] },
        { by: ana, at: '14:11' },
      ).room
    const { board } = half.when(thatWas(nestQ), { by: ana, at: '14:12' }).room
    expect(board.nests[nestP]?.hands).toMatchObject({ claimNo: 30, person: ana, answered: [] })
  })
})

describe('a correction on the same nest', () => {
  it('is what it was: E and F are not touched', () => {
    const correct: Order = {
      type: 'CorrectFeed',
      ...{ nest: nestP, claimNo: 30, reason: 'tapped wrong' },
      answers: [{ bird: p1, outcome: 'refused' }],
      toNest: nestP,
    }
    const after = wrong(allAte).when(correct, at1422)
    after.gives({ type: 'RoundCorrected', nest: nestP, no: 30 })
    expect(dueOf(after.room, nestE)).toBe(dueOf(broods, nestE))
    expect(dueOf(after.room, nestF)).toBe(dueOf(broods, nestF))
  })
})
