// The table of doubts, its row of answers: the owner says what happened, for a nest that is free, mine or
// somebody else's; and a fifth doubt ends the oldest. Looks into the crops are in lookTable.test.ts.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { claimed, clock, doubt, lapsed, opened, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell } from './cell.ts'
import { ana, ben, birdsF, f1, f2, f3, f4, nestF, room } from './smallRoom.ts'

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

describe('a visit answered in part after it lapsed, and taken back', () => {
  it('is one doubt about all its birds', () => {
    const answers = [f1, f2].map((bird) => ({ bird, outcome: 'ate' as const }))
    const answer: Order = { type: 'AnswerBirds', nest: nestF, claimNo: 9, answers }
    const half = silence.when(answer, { by: ana, at: '09:27', startedAt: '09:10' }).room
    expect(half.board.nests[nestF]?.doubts).toMatchObject([{ no: 9, birds: [f3, f4] }])
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 9 }
    const { board } = half.when(take, { by: ana, at: '09:28' }).room
    expect(board.nests[nestF]?.doubts.map(({ no, birds }) => [no, birds.toSorted()])).toEqual([
      [9, [...birdsF]],
    ])
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
