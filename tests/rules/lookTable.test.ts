// The table of doubts, its row of looks: somebody else looks into the crops. A look settles the warning
// for the next feeder; only the owner of the doubt settles the question.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { Crop } from '../../shared/board/constants.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { clock, doubt, lapsed, opened, round } from '../support/roomBuilder.ts'
import type { Hands } from './cell.ts'
import { ana, ben, birdsF, f1, f2, iris, nestF, room } from './smallRoom.ts'

/** Ana's visit 9 began at 09:10 and lapsed at 09:24 with nothing recorded. */
const silence = room.and(
  ...lapsed({ nest: nestF, no: 9, by: ana, birds: birdsF, at: '09:10' }, '09:24'),
)
const held = (by: typeof ana): Given =>
  silence.and(...opened({ nest: nestF, no: 12, by, birds: birdsF, at: '09:26' }))

const look = (crop: Crop, birds: readonly BirdId[] = birdsF): Order => ({
  type: 'Looked',
  nest: nestF,
  looks: birds.map((bird) => ({ bird, crop })),
})
/** Ben looks; the nest is free, in his hands, or in Iris's. */
const columns: readonly [Hands, Given][] = [
  ['free', silence],
  ['held by me', held(ben)],
  ['held by another', held(iris)],
]
const at26 = { by: ben, at: '09:26:30' } as const
const dueAfter = (after: Given, bird: BirdId = f1) =>
  known(birdDueAtMs(after.board, known(after.board.birds[bird], bird)), 'due time')

describe.each(columns)('a look into the crops, nest %s', (_hands, room) => {
  const doubtAfter = (order: Order) => room.when(order, at26).room.board.nests[nestF]?.doubts

  it('that finds them full stands for the feed nobody recorded', () => {
    const turn = room.when(look('full'), at26)
    turn.includes({
      type: 'BirdsLooked',
      v: 1,
      nest: nestF,
      by: ben,
      atMs: clock('09:26:30'),
      looks: birdsF.map((bird) => ({ bird, crop: 'full', fullSinceMs: clock('09:10') })),
    })
    expect(dueAfter(turn.room)).toBe(clock('09:40'))
  })

  it('that finds them full counts as no feed', () => {
    const { board } = room.when(look('full'), at26).room
    expect(board.birds[f1]?.feeds.map(({ no }) => no)).toEqual([1])
  })

  it('that finds them empty makes them due now', () => {
    const after = room.when(look('empty'), at26).room
    expect(dueAfter(after)).toBeLessThanOrEqual(clock('09:26:30'))
  })

  it('that cannot tell leaves them due when they were', () => {
    const turn = room.when(look('cannotTell'), at26)
    turn.includes({ type: 'BirdsLooked', nest: nestF, by: ben })
    expect(dueAfter(turn.room)).toBe(clock('09:10'))
  })

  it.each(['full', 'empty', 'cannotTell'] as const)('%s leaves the owner asked', (crop) => {
    expect(doubtAfter(look(crop))).toMatchObject([{ no: 9, owner: ana, birds: [...birdsF] }])
  })

  it('of one bird ends the warning for that bird alone', () => {
    expect(doubtAfter(look('empty', [f2]))).toMatchObject([{ no: 9, looked: [f2] }])
  })
})

describe('a look', () => {
  it('that finds a bird empty makes it due now even when it was not yet', () => {
    const fed = silence.and(
      round({ nest: nestF, no: 8, by: iris, birds: [f1], at: '09:05', recorded: '09:06' }),
    )
    expect(dueAfter(fed.when(look('empty', [f1]), at26).room)).toBe(clock('09:26:30'))
  })

  it('that finds a bird full overrules an earlier one that found it empty', () => {
    const emptyFirst = silence.when(look('empty', [f1]), at26).room
    const after = emptyFirst.when(look('full', [f1]), { by: iris, at: '09:32' }).room
    expect(dueAfter(after)).toBe(clock('09:40'))
  })

  it('that finds a bird empty overrules an earlier one that found it full', () => {
    const fullFirst = silence.when(look('full', [f1]), at26).room
    const after = fullFirst.when(look('empty', [f1]), { by: iris, at: '09:32' }).room
    expect(dueAfter(after)).toBe(clock('09:32'))
  })

  it('takes the latest of several doubtful times', () => {
    const earlier = { nest: nestF, no: 8, owner: iris, birds: [f1] } as const
    silence
      .and(doubt({ ...earlier, about: '09:00', raised: '09:15' }))
      .when(look('full', [f1]), at26)
      .includes({
        type: 'BirdsLooked',
        nest: nestF,
        looks: [{ bird: f1, crop: 'full', fullSinceMs: clock('09:10') }],
      })
  })

  it('at every bird lets the next person claim without a warning', () => {
    silence
      .when(look('empty'), at26)
      .room.when({ type: 'ClaimNest', nest: nestF }, { by: iris, at: '09:28' })
      .includes({ type: 'NestClaimed', nest: nestF, person: iris })
  })

  it('at some birds leaves the warning for the others', () => {
    silence
      .when(look('empty', [f1]), at26)
      .room.when({ type: 'ClaimNest', nest: nestF }, { by: iris, at: '09:28' })
      .refuses({ code: 'InDoubt', doubts: [9] })
  })

  it('at every bird does not let the owner past the question', () => {
    silence
      .when(look('empty'), at26)
      .room.when({ type: 'ClaimNest', nest: nestF }, { by: ana, at: '09:28' })
      .refuses({ code: 'AnswerFirst', claimNo: 9 })
  })
})

describe('the silence of visit 9, to the minute', () => {
  it('four full: the feeds of the day are unchanged and the nest is due at 09:40', () => {
    const after = held(ben).when(look('full'), at26).room
    expect(birdsF.map((bird) => dueAfter(after, bird))).toEqual(birdsF.map(() => clock('09:40')))
  })

  it('four empty: fed at 09:26, due at 09:56', () => {
    const after = held(ben)
      .when(look('empty'), { by: ben, at: '09:26:10' })
      .room.when(
        {
          type: 'AnswerBirds',
          nest: nestF,
          claimNo: 12,
          answers: birdsF.map((bird) => ({ bird, outcome: 'ate' })),
        },
        { by: ben, at: '09:30', startedAt: '09:26' },
      ).room
    expect(birdsF.map((bird) => dueAfter(after, bird))).toEqual(birdsF.map(() => clock('09:56')))
  })
})
