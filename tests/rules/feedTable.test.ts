// The table of feeds: starting and answering under the claim in hand, under an older number, or under
// none, for a nest that is free, mine, or somebody else's. What a late record does to a claim in hand is
// in lateFeedTable.test.ts.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import { type Given, given, type Order } from '../support/given.ts'
import { claimed, clock, ended, lapsed, opened, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell, type Hands } from './cell.ts'
import {
  ana,
  ben,
  birdsE,
  birdsF,
  f1,
  f2,
  f3,
  f4,
  nestE,
  nestF,
  room,
  unfedRoom,
} from './smallRoom.ts'

const ten = { nest: nestF, no: 10, birds: birdsF, at: '09:10' } as const
const nine = { nest: nestF, no: 9, birds: birdsF, by: ana, at: '08:50' } as const

/** Visit 9 was Ana's, and she gave it back. */
const once = room.and(claimed(nine), ended(nine, 'givenBack', '08:51'))
const held: Readonly<Record<Exclude<Hands, 'free'>, Given>> = {
  'held by me': once.and(claimed({ ...ten, by: ana })),
  'held by another': once.and(claimed({ ...ten, by: ben })),
}
const others = ['held by me', 'held by another'] as const

const answer = (birds: readonly BirdId[], claimNo?: number, outcome: Outcome = 'ate'): Order => ({
  type: 'AnswerBirds',
  nest: nestF,
  ...(claimNo === undefined ? {} : { claimNo }),
  answers: birds.map((bird) => ({ bird, outcome })),
})
const start = (claimNo?: number): Order => ({
  type: 'StartFeed',
  nest: nestF,
  ...(claimNo === undefined ? {} : { claimNo }),
})
const silent = { type: 'DoubtRaised', nest: nestF, kind: 'silent', owner: ana } as const

const current: readonly Cell[] = [
  {
    row: 'StartFeed(no) current',
    hands: 'held by me',
    given: held['held by me'],
    when: [start(10), { by: ana, at: '09:11', startedAt: '09:11' }],
    follows: {
      gives: [{ type: 'FeedStarted', nest: nestF, claimNo: 10, startedAtMs: clock('09:11') }],
    },
  },
  {
    row: 'StartFeed(no) current, heard late',
    hands: 'held by me',
    given: held['held by me'],
    when: [start(10), { by: ana, at: '09:13', startedAt: '09:11', agoMs: 120_000 }],
    follows: {
      gives: [{ type: 'FeedStarted', nest: nestF, claimNo: 10, startedAtMs: clock('09:11') }],
    },
  },
  {
    row: 'AnswerBirds current, some',
    hands: 'held by me',
    given: room.and(...opened({ ...ten, by: ana })),
    when: [answer([f1, f2], 10), { by: ana, at: '09:14', startedAt: '09:10' }],
    follows: {
      gives: [
        {
          type: 'RoundRecorded',
          nest: nestF,
          no: 10,
          person: ana,
          startedAtMs: clock('09:10'),
          standing: 'current',
          isSaid: false,
        },
      ],
    },
  },
  {
    row: 'AnswerBirds current, all',
    hands: 'held by me',
    given: room.and(...opened({ ...ten, by: ana })),
    when: [answer(birdsF, 10), { by: ana, at: '09:14', startedAt: '09:10' }],
    follows: {
      gives: [
        { type: 'RoundRecorded', no: 10, standing: 'current', startedAtMs: clock('09:10') },
        { type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'fed' },
      ],
    },
  },
  {
    row: 'AnswerBirds current, the rest',
    hands: 'held by me',
    given: room.and(...opened({ ...ten, by: ana }), round({ ...ten, by: ana, birds: [f1, f2] })),
    when: [answer([f3, f4], 10, 'refused'), { by: ana, at: '09:15', startedAt: '09:10' }],
    follows: {
      gives: [
        { type: 'RoundRecorded', no: 10, standing: 'current' },
        { type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'fed' },
      ],
    },
  },
]

const startOther: readonly Cell[] = [
  {
    row: 'StartFeed without a number, started under 60 s ago',
    hands: 'free',
    given: room,
    when: [start(), { by: ana, at: '09:10:59', startedAt: '09:10', agoMs: 59_000 }],
    follows: {
      includes: [{ type: 'NestClaimed', nest: nestF, person: ana, birds: [...birdsF] }],
      leavesOut: ['DoubtRaised'],
    },
  },
  {
    row: 'StartFeed of an older number, started under 60 s ago',
    hands: 'free',
    given: once,
    when: [start(9), { by: ana, at: '09:10:30', startedAt: '09:10' }],
    follows: { includes: [{ type: 'NestClaimed', nest: nestF }], leavesOut: ['DoubtRaised'] },
  },
  {
    row: 'StartFeed without a number, started 60 s ago',
    hands: 'free',
    given: room,
    when: [start(), { by: ana, at: '09:11', startedAt: '09:10', agoMs: 60_000 }],
    follows: { gives: [{ ...silent, aboutAtMs: clock('09:10'), birds: [...birdsF] }] },
  },
  {
    row: 'StartFeed of an older number, started long ago',
    hands: 'free',
    given: once,
    when: [start(9), { by: ana, at: '09:20', startedAt: '08:52', agoMs: 1_680_000 }],
    follows: { gives: [{ ...silent, no: 9, aboutAtMs: clock('08:52') }] },
  },
  ...others.map(
    (hands): Cell => ({
      row: 'StartFeed of an older number',
      hands,
      given: held[hands],
      when: [start(9), { by: ana, at: '09:12', startedAt: '08:52', agoMs: 1_200_000 }],
      follows: {
        gives: [
          { ...silent, no: 9, aboutAtMs: clock('08:52') },
          { type: 'StopCalled', nest: nestF, claimNo: 10, why: 'perhapsFed' },
        ],
      },
    }),
  ),
  {
    row: 'StartFeed without a number',
    hands: 'held by another',
    given: held['held by another'],
    when: [start(), { by: ana, at: '09:12', startedAt: '09:12' }],
    follows: {
      gives: [
        { ...silent, aboutAtMs: clock('09:12') },
        { type: 'StopCalled', nest: nestF, claimNo: 10, why: 'perhapsFed' },
      ],
    },
  },
]

/** Ana's visit 9 began at 09:10 and lapsed at 09:24 with nothing recorded. */
const silence = room.and(...lapsed({ ...nine, at: '09:10' }, '09:24'))
const arrives = { by: ana, at: '09:30', startedAt: '09:10', agoMs: 960_000 } as const

const answerFree: readonly Cell[] = [
  {
    row: 'AnswerBirds of a lapsed number, some',
    hands: 'free',
    given: silence,
    when: [answer([f1, f2], 9), arrives],
    follows: {
      gives: [
        {
          type: 'RoundRecorded',
          nest: nestF,
          no: 9,
          standing: 'late',
          startedAtMs: clock('09:10'),
        },
        { type: 'DoubtShrunk', nest: nestF, no: 9, birds: [f3, f4] },
      ],
    },
  },
  {
    row: 'AnswerBirds of a lapsed number, all',
    hands: 'free',
    given: silence,
    when: [answer(birdsF, 9), arrives],
    follows: {
      gives: [
        { type: 'RoundRecorded', no: 9, standing: 'late' },
        { type: 'DoubtEnded', nest: nestF, no: 9, how: 'recorded' },
      ],
    },
  },
  {
    row: 'AnswerBirds without a number',
    hands: 'free',
    given: room,
    when: [answer(birdsF), arrives],
    follows: {
      gives: [{ type: 'RoundRecorded', standing: 'unclaimed', startedAtMs: clock('09:10') }],
    },
  },
]

describe('the table of feeds', () => {
  it.each([...current, ...startOther, ...answerFree])('$row · $hands', (cell) => {
    checkCell(cell)
  })

  it('keeps a second late report of a number in the same round', () => {
    const { board } = silence
      .when(answer([f1, f2], 9), arrives)
      .room.when(answer([f3], 9), { ...arrives, at: '09:31' })
      .gives(
        { type: 'RoundRecorded', no: 9, standing: 'late' },
        { type: 'DoubtShrunk', no: 9, birds: [f4] },
      )
    const nines = board.nests[nestF]?.rounds.filter(({ no }) => no === 9) ?? []
    expect(nines).toHaveLength(1)
    expect(nines.flatMap(({ birds }) => birds).toSorted()).toEqual([f1, f2, f3])
  })

  it('follows the bird: an answer that names another nest goes where the bird is', () => {
    const stray = answer([birdsE[0]])
    const { board } = room.when(stray, arrives).room
    expect(board.birds[birdsE[0]]?.feeds.at(-1)).toMatchObject({ startedAtMs: clock('09:10') })
    expect(board.nests[nestE]?.rounds.at(-1)).toMatchObject({ standing: 'unclaimed' })
    expect(board.nests[nestF]?.rounds).toEqual(room.board.nests[nestF]?.rounds)
  })

  it('corrects inside the round when a bird is answered twice', () => {
    const { board } = room
      .and(...opened({ ...ten, by: ana }), round({ ...ten, by: ana, birds: [f1] }))
      .when(answer([f1], 10, 'refused'), { by: ana, at: '09:12', startedAt: '09:10' }).room
    const tens = board.birds[f1]?.feeds.filter(({ no }) => no === 10)
    expect(tens).toMatchObject([{ outcome: 'refused' }])
    expect(board.nests[nestF]?.rounds.filter(({ no }) => no === 10)).toHaveLength(1)
    expect(board.nests[nestF]?.hands.type).toBe('held')
  })

  it('keeps the latest eight rounds of a nest', () => {
    const minutes = [20, 22, 24, 26, 28, 30, 32, 34, 36, 38]
    const many = minutes.map((minute, index) =>
      round({ nest: nestF, no: 50 + index, by: ana, birds: [f1], at: `07:${minute}` }),
    )
    const { board } = given(...unfedRoom, ...many)
    expect(board.nests[nestF]?.rounds.map(({ no }) => no)).toEqual([52, 53, 54, 55, 56, 57, 58, 59])
  })
})
