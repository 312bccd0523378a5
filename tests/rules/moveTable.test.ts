// A brood moved to another incubator, a bird to another nest: what stands in the way, in order, and that
// feeds, doubts, calls and reports follow the bird.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { banded } from '../support/broodBuilder.ts'
import { fluidsCalled } from '../support/callBuilder.ts'
import { type Given, known, type Order } from '../support/given.ts'
import {
  birdOf,
  claimed,
  clock,
  doubt,
  ended,
  incubatorOf,
  lapsed,
  nestOf,
  round,
} from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  birdsE,
  birdsF,
  f1,
  f2,
  f3,
  f4,
  g1,
  halfHourly,
  inc1,
  inc2,
  lena,
  nestE,
  nestF,
  nestG,
  room,
} from './smallRoom.ts'

const asks = { by: lena, at: '09:05' } as const
const move = (bird: BirdId, nest = nestE, more: object = {}): Order =>
  ({ type: 'MoveBird', bird, nest, ...more }) as Order
const inF = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:00' } as const
const inE = { nest: nestE, no: 11, by: ben, birds: birdsE, at: '09:00' } as const
const nestQ = nestOf(20)
const quarantined = (band: string | null = null): RoomEvent =>
  banded(nestQ, {
    ...{ label: 'Q', incubator: inc1, plan: halfHourly, isQuarantined: true },
    birds: [
      { id: birdOf(60), band },
      { id: birdOf(61), band: null },
    ],
  })
const twelve = banded(nestOf(21), {
  ...{ label: 'T', incubator: inc1, plan: halfHourly },
  birds: Array.from({ length: 12 }, (_, at) => ({ id: birdOf(70 + at), band: null })),
})

/** Each stands in the way of moving this bird, in the order in which they are looked for. */
const inTheWay: readonly { code: string; past: readonly RoomEvent[]; order: Order }[] = [
  { code: 'BirdUnknown', past: [], order: move(birdOf(999)) },
  { code: 'NestUnknown', past: [], order: move(f1, nestOf(99)) },
  { code: 'NestInHands', past: [claimed(inF)], order: move(f1) },
  { code: 'LastBird', past: [], order: move(g1) },
  { code: 'BoardFull', past: [twelve], order: move(f1, nestOf(21)) },
  {
    code: 'BandTaken',
    past: [quarantined('b1')],
    order: move(f1, nestQ, { isQuarantineDecided: true }),
  },
  { code: 'QuarantineDiffers', past: [quarantined()], order: move(f1, nestQ) },
  { code: 'QuarantineDiffers', past: [quarantined()], order: move(birdOf(60), nestE) },
]

describe('moving a bird', () => {
  it.each(inTheWay)('is refused with $code', ({ code, past, order }) => {
    expect(room.and(...past).when(order, asks).reason).toMatchObject({ code })
  })

  it('is refused while the nest it leaves is in hands, and says whose', () => {
    room
      .and(claimed(inF))
      .when(move(f1), asks)
      .refuses({ code: 'NestInHands', nest: nestF, person: ana })
  })

  it('to where it is changes nothing', () => {
    room.when(move(f1, nestF), asks).gives()
  })

  it('out of quarantine or into it is done once that was decided', () => {
    const decided = { isQuarantineDecided: true }
    room
      .and(quarantined())
      .when(move(f1, nestQ, decided), asks)
      .gives({ type: 'BirdMoved', bird: f1 })
    room
      .and(quarantined())
      .when(move(birdOf(60), nestE, decided), asks)
      .gives({ type: 'BirdMoved', bird: birdOf(60), nest: nestE })
  })

  it('into a nest in hands leaves that claim its birds, and the bird is due after it', () => {
    const { board } = room.and(claimed(inE)).when(move(f1), asks).room
    expect(board.birds[f1]?.nest).toBe(nestE)
    expect(board.nests[nestE]?.hands).toMatchObject({ person: ben, birds: birdsE })
  })

  it('leaves it due when it was, with every feed it had', () => {
    const { board } = room.when(move(f1), asks).room
    const bird = known(board.birds[f1], 'bird')
    expect(bird.feeds).toEqual(room.board.birds[f1]?.feeds)
    expect(birdDueAtMs(board, bird)).toBe(clock('09:10'))
  })

  it('takes its open call for fluids along', () => {
    const calling = room.and(fluidsCalled({ no: 1, nest: nestF, bird: f1, at: '09:00' }))
    const { board } = calling.when(move(f1), asks).room
    expect(Object.values(board.requests)).toMatchObject([{ bird: f1, nest: nestE }])
  })
})

const doubted = room.and(lapsed({ ...inF, at: '08:56' }, '09:02'))
const doubtsIn = ({ board }: Given, nest = nestE) =>
  (board.nests[nest]?.doubts ?? []).map(({ no, owner, birds, looked }) => ({
    no,
    owner,
    birds,
    looked,
  }))

describe('a doubt', () => {
  const moved = doubted.when(move(f1), asks).room

  it('follows the bird it is about, and stays with the others', () => {
    expect(doubtsIn(moved)).toEqual([{ no: 10, owner: ana, birds: [f1], looked: [] }])
    expect(doubtsIn(moved, nestF)).toEqual([
      { no: 10, owner: ana, birds: [f2, f3, f4], looked: [] },
    ])
  })

  it('of one bird alone goes with it altogether', () => {
    const one = room.and(
      doubt({ nest: nestF, no: 10, owner: ana, birds: [f1], about: '08:45', raised: '09:02' }),
    )
    const after = one.when(move(f1), asks).room
    expect(doubtsIn(after, nestF)).toEqual([])
    expect(doubtsIn(after)).toHaveLength(1)
  })

  it('is answered for every bird of the visit, wherever it is now', () => {
    const say: Order = { type: 'SayWhatHappened', nest: nestF, claimNo: 10, said: { type: 'all' } }
    const after = moved.when(say, { by: ana, at: '09:06' }).room
    expect([...doubtsIn(after), ...doubtsIn(after, nestF)]).toEqual([])
    for (const bird of birdsF) {
      expect(after.board.birds[bird]?.feeds.at(-1)?.startedAtMs).toBe(clock('08:56'))
    }
  })

  it('of a moved bird alone can be answered for where it is now', () => {
    const say: Order = { type: 'SayWhatHappened', nest: nestE, claimNo: 10, said: { type: 'none' } }
    expect(doubtsIn(moved.when(say, { by: ana, at: '09:06' }).room)).toEqual([])
  })

  it('beyond the four a nest holds ends the oldest, which is said', () => {
    const about = { nest: nestE, owner: ben, birds: birdsE, about: '08:50' } as const
    const full = doubted.and(
      doubt({ ...about, no: 20, raised: '08:51' }),
      doubt({ ...about, no: 21, raised: '08:52' }),
      doubt({ ...about, no: 22, raised: '08:53' }),
      doubt({ ...about, no: 23, raised: '08:54' }),
    )
    const turn = full.when(move(f1), asks)
    turn.includes({ type: 'DoubtEnded', nest: nestE, no: 20, how: 'neverAnswered' } as never)
    expect(doubtsIn(turn.room).map(({ no }) => no)).toEqual([21, 22, 23, 10])
  })
})

describe('a report of a bird that has moved', () => {
  const given9 = { nest: nestF, no: 9, by: ana, birds: birdsF, at: '08:50' } as const
  const once = room.and(claimed(given9), ended(given9, 'givenBack', '08:51'))
  const movedOnce = once.when(move(f1), asks).room
  const ate = (birds: readonly BirdId[]) => birds.map((bird) => ({ bird, outcome: 'ate' as const }))

  it('is a feed where the bird is now, and one where the others are', () => {
    const answer: Order = { type: 'AnswerBirds', nest: nestF, claimNo: 9, answers: ate(birdsF) }
    const turn = movedOnce.when(answer, { by: ana, at: '09:06', startedAt: '08:56' })
    const rounds = turn.events.filter(({ type }) => type === 'RoundRecorded')
    expect(rounds).toMatchObject([
      { nest: nestE, answers: ate([f1]) },
      { nest: nestF, no: 9, answers: ate([f2, f3, f4]) },
    ])
  })

  it('is a look where the bird is now', () => {
    const looks = birdsF.map((bird) => ({ bird, crop: 'full' as const }))
    const turn = movedOnce.when({ type: 'Looked', nest: nestF, looks }, { by: ana, at: '09:06' })
    turn.leavesOut('ReportSetAside')
    for (const bird of birdsF) {
      expect(turn.room.board.birds[bird]?.lookedFullAtMs).toBe(clock('09:06'))
    }
    const alone: Order = { type: 'Looked', nest: nestF, looks: [{ bird: f1, crop: 'empty' }] }
    const one = movedOnce.when(alone, { by: ana, at: '09:06' })
    one.gives({ type: 'BirdsLooked', nest: nestE })
  })

  const fedNine = room.and(round({ ...given9, at: '09:01' })).when(move(f1), asks).room
  const noNine = (bird: BirdId, { board }: Given) =>
    board.birds[bird]?.feeds.every(({ no }) => no !== 9)

  it('that is taken back is taken back of every bird it was about', () => {
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 9, wasFed: 'no' }
    const after = fedNine.when(take, { by: ana, at: '09:08' }).room
    expect(birdsF.map((bird) => noNine(bird, after))).toEqual([true, true, true, true])
  })

  it('that is taken back though it was fed leaves every bird fed', () => {
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 9, wasFed: 'yes' }
    const after = fedNine.when(take, { by: ana, at: '09:08' }).room
    for (const bird of birdsF) {
      expect(after.board.birds[bird]?.feeds.at(-1)).toMatchObject({
        startedAtMs: clock('09:01'),
        isSaid: true,
      })
    }
  })

  it('that is taken back, nobody knowing whether it was fed, is doubted of every bird', () => {
    const take: Order = { type: 'TakeBackFeed', nest: nestF, claimNo: 9, wasFed: 'unknown' }
    const after = fedNine.when(take, { by: ana, at: '09:08' }).room
    const birds = [...doubtsIn(after), ...doubtsIn(after, nestF)].flatMap((one) => one.birds)
    expect(birds.toSorted()).toEqual([...birdsF])
  })

  it('that is put onto another nest is taken along', () => {
    const that: Order = {
      ...{ type: 'CorrectFeed', nest: nestF, claimNo: 9, answers: [], reason: 'that was G' },
      toNest: nestG,
    }
    const after = fedNine.when(that, { by: ana, at: '09:08' }).room
    expect(birdsF.map((bird) => noNine(bird, after))).toEqual([true, true, true, true])
    expect(after.board.birds[g1]?.feeds.at(-1)).toMatchObject({ startedAtMs: clock('09:01') })
  })
})

describe('moving a brood', () => {
  const toTwo: Order = { type: 'MoveNest', nest: nestF, incubator: inc2 }

  it('puts it into the other incubator and changes nothing else', () => {
    const after = room.when(toTwo, asks).gives({ type: 'NestMoved', nest: nestF, incubator: inc2 })
    const { incubator: _was, ...before } = known(room.board.nests[nestF], 'nest')
    expect(after.board.nests[nestF]).toEqual({ ...before, incubator: inc2 })
  })

  it('is refused of a nest nobody knows, to an incubator nobody knows, and in hands', () => {
    room.when({ ...toTwo, nest: nestOf(99) } as Order, asks).refuses({ code: 'NestUnknown' })
    const nowhere = incubatorOf(29)
    room
      .when({ ...toTwo, incubator: nowhere } as Order, asks)
      .refuses({ code: 'IncubatorUnknown', incubator: nowhere })
    room
      .and(claimed(inF))
      .when(toTwo, asks)
      .refuses({ code: 'NestInHands', nest: nestF, person: ana })
  })

  it('to where it is changes nothing, in hands or not', () => {
    const here: Order = { type: 'MoveNest', nest: nestF, incubator: inc1 }
    room.and(claimed(inF)).when(here, asks).gives()
  })
})
