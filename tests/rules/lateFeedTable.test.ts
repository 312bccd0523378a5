// The table of feeds, its last row: a late record that comes in while the nest is in somebody's hands.
// It is never lost, and takes out of those hands only the birds that really were just fed.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import type { Given, Order } from '../support/given.ts'
import { claimed, clock, ended, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell, type Hands } from './cell.ts'
import { ana, ben, birdsF, f1, f2, f3, f4, g1, nestF, nestG, room } from './smallRoom.ts'

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
/** The age at which a late record no longer stops anybody: three quarters of half an hour. */
const strikes: readonly Cell[] = others.flatMap((hands): readonly Cell[] => [
  {
    row: 'AnswerBirds of an older number, two fed 22 min 29 s ago',
    hands,
    given: held[hands],
    when: [answer([f1, f2], 9), { by: ana, at: '09:14:29', startedAt: '08:52' }],
    follows: {
      includes: [{ type: 'ClaimBirdsStruck', nest: nestF, claimNo: 10, birds: [f1, f2] }],
      leavesOut: ['ClaimEnded'],
    },
  },
  {
    row: 'AnswerBirds of an older number, two fed 22 min 30 s ago',
    hands,
    given: held[hands],
    when: [answer([f1, f2], 9), { by: ana, at: '09:14:30', startedAt: '08:52' }],
    // Twelve minutes after visit 1, so that they seem fed twice.
    follows: {
      gives: [
        { type: 'RoundRecorded', no: 9, standing: 'late' },
        { type: 'DoubtRaised', nest: nestF, kind: 'twice', pair: [1, 9], birds: [f1, f2] },
      ],
    },
  },
  {
    row: 'AnswerBirds of an older number, two refused just now',
    hands,
    given: held[hands],
    when: [answer([f1, f2], 9, 'refused'), { by: ana, at: '09:14', startedAt: '09:08' }],
    follows: { gives: [{ type: 'RoundRecorded', no: 9, standing: 'late' }] },
  },
  {
    row: 'AnswerBirds of an older number, all fed just now',
    hands,
    given: held[hands],
    when: [answer(birdsF, 9), { by: ana, at: '09:14', startedAt: '09:08' }],
    follows: {
      includes: [
        { type: 'StopCalled', nest: nestF, claimNo: 10, v: 1, why: 'fedByOther' },
        {
          type: 'ClaimEnded',
          v: 1,
          nest: nestF,
          claimNo: 10,
          how: 'calledOff',
          atMs: clock('09:14'),
        },
      ],
    },
  },
  {
    row: 'AnswerBirds without a number, one fed just now',
    hands,
    given: held[hands],
    when: [answer([f1]), { by: ana, at: '09:14', startedAt: '09:08' }],
    follows: {
      includes: [{ type: 'ClaimBirdsStruck', nest: nestF, claimNo: 10, birds: [f1] }],
      leavesOut: ['ClaimEnded'],
    },
  },
])

describe('a late record while the nest is in hands', () => {
  it.each(strikes)('$row · $hands', (cell) => {
    checkCell(cell)
  })

  it('is recorded all the same, and moves when the birds are due', () => {
    const { board } = held['held by another'].when(answer([f1], 9), {
      by: ana,
      at: '09:14',
      startedAt: '09:08',
    }).room
    expect(board.birds[f1]?.feeds.at(-1)).toMatchObject({ no: 9, startedAtMs: clock('09:08') })
    expect(board.nests[nestF]?.hands).toMatchObject({ person: ben, birds: [f2, f3, f4] })
  })

  it('ends as fed the claim whose other birds were all answered before it', () => {
    const almost = held['held by another'].and(
      round({ ...ten, by: ben, birds: [f2, f3, f4], recorded: '09:13' }),
    )
    const { board } = almost.when(answer([f1], 9), {
      by: ana,
      at: '09:14',
      startedAt: '09:08',
    }).room
    expect(board.nests[nestF]?.hands).toEqual({ type: 'free' })
  })

  it('leaves a claim on another nest alone', () => {
    const both = room.and(claimed({ nest: nestG, no: 11, by: ben, birds: [g1], at: '09:10' }))
    both
      .when(answer(birdsF), { by: ana, at: '09:14', startedAt: '09:08' })
      .gives({ type: 'RoundRecorded', nest: nestF, standing: 'unclaimed' })
  })
})
