// The table of doubts: their owner says what happened, somebody else looks into the crops, and a fifth
// ends the oldest. A look settles the warning for the next feeder; only its owner settles the question.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { Crop } from '../../shared/board/constants.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { claimed, clock, doubt, lapsed, opened, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell, type Hands } from './cell.ts'
import { ana, ben, birdsF, f1, f2, f3, f4, iris, nestF, room } from './smallRoom.ts'

/** Ana's visit 9 began at 09:10 and lapsed at 09:24 with nothing recorded. */
const silence = room.and(
  ...lapsed({ nest: nestF, no: 9, by: ana, birds: birdsF, at: '09:10' }, '09:24'),
)
const held = (by: typeof ana): Given =>
  silence.and(...opened({ nest: nestF, no: 12, by, birds: birdsF, at: '09:26' }))

type Said =
  | { readonly type: 'all' | 'none' }
  | { readonly type: 'some'; readonly birds: readonly BirdId[] }
const say = (said: Said, claimNo = 9): Order => ({
  type: 'SayWhatHappened',
  nest: nestF,
  claimNo,
  said,
})
const all = { type: 'all' } as const
const none = { type: 'none' } as const
const some = (...birds: readonly BirdId[]) => ({ type: 'some', birds: [...birds] }) as const

const settledAs = (said: 'all' | 'some' | 'none') =>
  ({ type: 'DoubtEnded', nest: nestF, no: 9, how: 'said', said }) as const
const saidRound = { type: 'RoundRecorded', nest: nestF, isSaid: true, person: ana } as const
const at27 = { by: ana, at: '09:27' } as const

const mine = room.and(...opened({ nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10' }))
const mineAnswered = mine.and(
  round({ nest: nestF, no: 10, by: ana, birds: [f1], at: '09:10', recorded: '09:12' }),
)

const saying: readonly Cell[] = [
  {
    row: 'SayWhatHappened all',
    hands: 'free',
    given: silence,
    when: [say(all), at27],
    follows: { gives: [{ ...saidRound, no: 9, startedAtMs: clock('09:10') }, settledAs('all')] },
  },
  {
    row: 'SayWhatHappened some',
    hands: 'free',
    given: silence,
    when: [say(some(f1)), at27],
    follows: { gives: [{ ...saidRound, no: 9, startedAtMs: clock('09:10') }, settledAs('some')] },
  },
  {
    row: 'SayWhatHappened none',
    hands: 'free',
    given: silence,
    when: [say(none), at27],
    follows: { gives: [settledAs('none')] },
  },
  {
    row: 'SayWhatHappened all, of the claim in hand',
    hands: 'held by me',
    given: mine,
    when: [say(all, 10), at27],
    follows: {
      gives: [
        { ...saidRound, no: 10 },
        { type: 'ClaimEnded', claimNo: 10, how: 'fed' },
      ],
    },
  },
  {
    row: 'SayWhatHappened some, of the claim in hand',
    hands: 'held by me',
    given: mine,
    when: [say(some(f1, f2), 10), at27],
    follows: {
      gives: [
        { ...saidRound, no: 10 },
        { type: 'ClaimEnded', claimNo: 10, how: 'partly' },
      ],
    },
  },
  {
    row: 'SayWhatHappened none, of the claim in hand',
    hands: 'held by me',
    given: mine,
    when: [say(none, 10), at27],
    follows: { gives: [{ type: 'ClaimEnded', claimNo: 10, how: 'notFed' }] },
  },
  {
    row: 'SayWhatHappened none, one bird answered before',
    hands: 'held by me',
    given: mineAnswered,
    when: [say(none, 10), at27],
    follows: { gives: [{ type: 'ClaimEnded', claimNo: 10, how: 'partly' }] },
  },
  ...([all, some(f1), none] as const).map(
    (said): Cell => ({
      row: `SayWhatHappened ${said.type}`,
      hands: 'held by another',
      given: held(ben),
      when: [say(said), at27],
      follows: { includes: [settledAs(said.type)] },
    }),
  ),
]

describe('what the owner of a doubt says', () => {
  it.each(saying)('$row · $hands', (cell) => {
    checkCell(cell)
  })

  it('feeds the birds it names from the start of that visit, and no others', () => {
    const { board } = silence.when(say(some(f1)), at27).room
    expect(birdDueAtMs(board, known(board.birds[f1], f1))).toBe(clock('09:40'))
    expect(birdDueAtMs(board, known(board.birds[f2], f2))).toBe(clock('09:10'))
  })

  it('does not take the nest from somebody else when nothing was fed', () => {
    const { board } = held(ben).when(say(none), at27).room
    expect(board.nests[nestF]?.hands).toMatchObject({ person: ben, birds: birdsF })
  })

  it.each([all, some(f1), none])(
    'about the claim in another’s hands ends nothing: $type',
    (said) => {
      const bens = room.and(...opened({ nest: nestF, no: 10, by: ben, birds: birdsF, at: '09:10' }))
      const { events, board } = bens.when(say(said, 10), { by: ana, at: '09:12' })
      expect(events.map(({ type }) => type)).not.toContain('ClaimEnded')
      expect(board.nests[nestF]?.hands).toMatchObject({ type: 'held', person: ben })
    },
  )

  it('is asked only about the birds that were not answered', () => {
    const half = room
      .and(...opened({ nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10', until: '09:24' }))
      .and(round({ nest: nestF, no: 10, by: ana, birds: [f1, f2], at: '09:10' }))
    half
      .whenClock('09:24')
      .includes({ type: 'DoubtRaised', nest: nestF, no: 10, birds: [f3, f4], owner: ana })
  })
})

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

describe('a fifth doubt', () => {
  it('ends the oldest as never answered', () => {
    const four = ([5, 6, 7, 8] as const).map((no) =>
      doubt({
        nest: nestF,
        no,
        owner: ben,
        birds: birdsF,
        about: `09:0${no}`,
        raised: `09:0${no}:30`,
      }),
    )
    const { board } = room
      .and(...four)
      .and(claimed({ nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10', until: '09:20' }))
      .whenClock('09:20')
      .includes({ type: 'DoubtEnded', v: 1, nest: nestF, no: 5, how: 'neverAnswered' }).room
    expect(board.nests[nestF]?.doubts.map(({ no }) => no)).toEqual([6, 7, 8, 10])
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
