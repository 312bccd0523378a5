// The table of second thoughts: a feed taken back within ten seconds or later, and a feed corrected,
// for a nest that is free, mine, or somebody else's. Hands never move by a correction.

import { describe, expect, it } from 'vitest'
import type { CommandOf } from '../../shared/board/commands.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { claimed, clock, ended, opened, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell } from './cell.ts'
import { ana, ben, birdsE, birdsF, f1, f2, nestE, nestF, room } from './smallRoom.ts'

const ten = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10' } as const
/** Ana fed F from 09:10 and saved at 09:14:00; nobody has the nest. */
const saved = room.and(
  ...opened(ten),
  round({ ...ten, recorded: '09:14' }),
  ended(ten, 'fed', '09:14'),
)
/** Ana saved two birds at 09:14:00 and still has the nest. */
const savedHalf = room.and(...opened(ten), round({ ...ten, birds: [f1, f2], recorded: '09:14' }))
const nextNest = { nest: nestE, no: 11, by: ana, birds: birdsE, at: '09:14:03' } as const
const inBensHands = saved.and(
  claimed({ nest: nestF, no: 12, by: ben, birds: birdsF, at: '09:14:05' }),
)

const takeBack = (wasFed?: CommandOf<'TakeBackFeed'>['wasFed']): Order => ({
  type: 'TakeBackFeed',
  nest: nestF,
  claimNo: 10,
  ...(wasFed ? { wasFed } : {}),
})
const takenBack = { type: 'RoundTakenBack', nest: nestF, no: 10, by: ana } as const
const again = { type: 'NestClaimed', nest: nestF, person: ana } as const
const tenSecondsOn = { by: ana, at: '09:14:10' } as const
const elevenSecondsOn = { by: ana, at: '09:14:11' } as const

const cells: readonly Cell[] = [
  {
    row: 'TakeBackFeed at 10 s',
    hands: 'free',
    given: saved,
    when: [takeBack(), tenSecondsOn],
    follows: { gives: [takenBack, { ...again, birds: [...birdsF] }] },
  },
  {
    row: 'TakeBackFeed at 10 s, the next nest untouched',
    hands: 'free',
    given: saved.and(claimed(nextNest)),
    when: [takeBack(), tenSecondsOn],
    follows: {
      gives: [takenBack, again, { type: 'ClaimEnded', nest: nestE, claimNo: 11, how: 'givenBack' }],
    },
  },
  {
    row: 'TakeBackFeed at 10 s, the next nest open',
    hands: 'free',
    given: saved.and(...opened(nextNest)),
    when: [takeBack(), tenSecondsOn],
    follows: {
      gives: [takenBack, { type: 'DoubtRaised', nest: nestF, kind: 'silent', owner: ana }],
    },
  },
  {
    row: 'TakeBackFeed at 10 s',
    hands: 'held by me',
    given: savedHalf,
    when: [takeBack(), tenSecondsOn],
    follows: { includes: [takenBack], leavesOut: ['DoubtRaised', 'ClaimEnded'] },
  },
  {
    row: 'TakeBackFeed at 10 s',
    hands: 'held by another',
    given: inBensHands,
    when: [takeBack(), tenSecondsOn],
    follows: {
      gives: [
        takenBack,
        { type: 'DoubtRaised', nest: nestF, kind: 'silent' },
        { type: 'StopCalled', nest: nestF, claimNo: 12 },
      ],
    },
  },
  ...(
    [
      ['free', saved],
      ['held by another', inBensHands],
    ] as const
  ).flatMap(([hands, given]): readonly Cell[] => [
    {
      row: 'TakeBackFeed at 11 s, it was not fed',
      hands,
      given,
      when: [takeBack('no'), elevenSecondsOn],
      follows: { gives: [takenBack] },
    },
    {
      row: 'TakeBackFeed at 11 s, nobody knows whether it was fed',
      hands,
      given,
      when: [takeBack('unknown'), elevenSecondsOn],
      follows: {
        includes: [takenBack, { type: 'DoubtRaised', nest: nestF, kind: 'silent' }],
        leavesOut: ['NestClaimed'],
      },
    },
    {
      row: 'TakeBackFeed at 11 s, the question left out',
      hands,
      given,
      when: [takeBack(), elevenSecondsOn],
      follows: {
        includes: [takenBack, { type: 'DoubtRaised', nest: nestF, kind: 'silent' }],
        leavesOut: ['NestClaimed'],
      },
    },
    {
      row: 'TakeBackFeed at 11 s, it was fed',
      hands,
      given,
      when: [takeBack('yes'), elevenSecondsOn],
      follows: { includes: [takenBack], leavesOut: ['NestClaimed', 'ClaimEnded'] },
    },
  ]),
]

const halfAnswered = birdsF.slice(2).map((bird) => ({ bird, outcome: 'ate' }) as const)
const correct = (outcome: 'refused' | 'ate'): Order => ({
  type: 'CorrectFeed',
  nest: nestF,
  claimNo: 10,
  answers: [{ bird: f1, outcome }],
  reason: 'tapped the wrong bird',
})
const corrected = { type: 'RoundCorrected', nest: nestF, no: 10, by: ana } as const
const corrections: readonly Cell[] = [
  ['free', saved] as const,
  ['held by me', savedHalf] as const,
  ['held by another', inBensHands] as const,
].map(
  ([hands, given]): Cell => ({
    row: 'CorrectFeed',
    hands,
    given,
    when: [correct('refused'), { by: ana, at: '09:20' }],
    follows: { includes: [corrected], leavesOut: ['ClaimEnded', 'NestClaimed', 'DoubtRaised'] },
  }),
)

const dueOf = (after: Given, bird = f1) =>
  birdDueAtMs(after.board, known(after.board.birds[bird], bird))

describe('the table of second thoughts', () => {
  it.each([...cells, ...corrections])('$row · $hands', (cell) => {
    const hands = cell.given.board.nests[nestF]?.hands
    const after = checkCell(cell)
    if (cell.row === 'CorrectFeed') expect(after.board.nests[nestF]?.hands).toEqual(hands)
  })

  it('takes back a feed as if it had never been', () => {
    expect(dueOf(saved)).toBe(clock('09:40'))
    expect(dueOf(saved.when(takeBack('no'), elevenSecondsOn).room)).toBe(clock('09:10'))
  })

  it('keeps the round that was taken back, marked so', () => {
    const { board } = saved.when(takeBack('no'), elevenSecondsOn).room
    const rounds = board.nests[nestF]?.rounds.filter(({ no }) => no === 10)
    expect(rounds).toMatchObject([{ isTakenBack: true }])
  })

  it('takes a round back once, however often it is told', () => {
    saved
      .when(takeBack('no'), elevenSecondsOn)
      .room.when(takeBack('unknown'), { by: ana, at: '09:15' })
      .gives()
  })

  it('leaves the nest in the same hands when it is taken back while held', () => {
    const { board } = savedHalf.when(takeBack(), tenSecondsOn).room
    expect(board.nests[nestF]?.hands).toMatchObject({ type: 'held', person: ana })
    expect(dueOf({ board } as Given)).toBe(clock('09:10'))
  })

  it('asks again about every bird of a claim in hand whose round was taken back', () => {
    const after = savedHalf.when(takeBack('no'), elevenSecondsOn).room
    const { board } = after.when(
      { type: 'AnswerBirds', nest: nestF, claimNo: 10, answers: halfAnswered },
      { by: ana, at: '09:15', startedAt: '09:10' },
    ).room
    expect(board.nests[nestF]?.hands).toMatchObject({ type: 'held', answered: ['b3', 'b4'] })
  })

  it('gives the nest a fresh number when it is claimed again', () => {
    const claim = saved
      .when(takeBack(), tenSecondsOn)
      .events.find((event) => event.type === 'NestClaimed')
    expect(claim?.type === 'NestClaimed' && claim.claimNo).toBeGreaterThan(10)
  })

  it('makes the nest due anew when an outcome is corrected: refused at 09:10, so at 09:25', () => {
    const after = saved.when(correct('refused'), { by: ana, at: '09:20' }).room
    expect(dueOf(after)).toBe(clock('09:25'))
    expect(dueOf(after, f2)).toBe(clock('09:40'))
  })

  it('counts the corrections of a round', () => {
    const { board } = saved.when(correct('refused'), { by: ana, at: '09:20' }).room
    const rounds = board.nests[nestF]?.rounds.filter(({ no }) => no === 10)
    expect(rounds).toMatchObject([{ corrections: 1 }])
  })
})
