// Asking for a nest: each reason to refuse, alone, and for each two of them together which of the two
// is the answer. The order is fixed, so that the same person at the same moment always reads the same
// sentence. The one who asks is a trainee, whose mentor may be away.

import { describe, expect, it } from 'vitest'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Order } from '../support/given.ts'
import { claimed, clock, doubt, nestOf, offShift, opened, round } from '../support/roomBuilder.ts'
import { ben, birdsE, birdsF, iris, lena, nestE, nestF, room, tom } from './smallRoom.ts'

type Reason = {
  readonly code:
    | 'NotOnShift'
    | 'NestUnknown'
    | 'NestTaken'
    | 'NothingReady'
    | 'MentorAway'
    | 'FinishFirst'
    | 'AnswerFirst'
    | 'InDoubt'
  readonly past: readonly RoomEvent[]
  readonly order?: Order
}

const claimF: Order = { type: 'ClaimNest', nest: nestF }
const ask = { by: tom, at: '09:10' } as const

/** In the order in which they are looked for. Each past is enough alone to be refused with its code. */
const reasons: readonly Reason[] = [
  { code: 'NotOnShift', past: [offShift(tom, '09:05')] },
  { code: 'NestUnknown', past: [], order: { type: 'ClaimNest', nest: nestOf(99) } },
  {
    code: 'NestTaken',
    past: [claimed({ nest: nestF, no: 20, by: ben, birds: birdsF, at: '09:08' })],
  },
  {
    code: 'NothingReady',
    past: [round({ nest: nestF, no: 21, by: iris, birds: birdsF, at: '09:00' })],
  },
  { code: 'MentorAway', past: [offShift(lena, '09:05')] },
  {
    code: 'FinishFirst',
    past: [...opened({ nest: nestE, no: 22, by: tom, birds: birdsE, at: '09:07' })],
  },
  {
    code: 'AnswerFirst',
    past: [
      doubt({ nest: nestF, no: 23, owner: tom, birds: birdsF, about: '08:50', raised: '09:03' }),
    ],
  },
  {
    code: 'InDoubt',
    past: [
      doubt({ nest: nestF, no: 24, owner: ben, birds: birdsF, about: '08:52', raised: '09:04' }),
    ],
  },
]

const pairs = reasons.flatMap((first, index) =>
  reasons.slice(index + 1).map((second) => ({
    first: first.code,
    second: second.code,
    past: [...second.past, ...first.past],
    order: first.order ?? second.order ?? claimF,
  })),
)

describe('asking for a nest', () => {
  it('is granted when nothing speaks against it', () => {
    room.when(claimF, ask).includes({ type: 'NestClaimed', nest: nestF, person: tom })
  })

  it.each(reasons)('is refused with $code', ({ code, past, order = claimF }) => {
    room
      .and(...past)
      .when(order, ask)
      .refuses({ code })
  })

  it('has twenty-eight pairs of reasons', () => {
    expect(pairs).toHaveLength(28)
  })

  it.each(pairs)('is refused with $first rather than $second', ({ first, past, order }) => {
    room
      .and(...past)
      .when(order, ask)
      .refuses({ code: first })
  })

  it('says who has the nest, and since when', () => {
    const bens = { nest: nestF, no: 20, by: ben, birds: birdsF } as const
    const openedLater = opened({ ...bens, at: '09:09:30' }).slice(1)
    room
      .and(claimed({ ...bens, at: '09:08' }), ...openedLater)
      .when(claimF, ask)
      .refuses({ code: 'NestTaken', person: ben, sinceMs: clock('09:08') })
  })

  it('says which nest to finish, which visit to answer for, and which doubts to look at', () => {
    const [, , , , , finish, answer, look] = reasons
    room
      .and(...(finish?.past ?? []))
      .when(claimF, ask)
      .refuses({ code: 'FinishFirst', nest: nestE })
    room
      .and(...(answer?.past ?? []))
      .when(claimF, ask)
      .refuses({ code: 'AnswerFirst', claimNo: 23 })
    room
      .and(...(look?.past ?? []))
      .when(claimF, ask)
      .refuses({ code: 'InDoubt', doubts: [24] })
  })
})

describe('a nest that is mine already', () => {
  const mine = room.and(claimed({ nest: nestF, no: 20, by: tom, birds: birdsF, at: '09:08' }))
  const later = reasons.slice(3).filter(({ code }) => code !== 'FinishFirst')

  it.each(later)('is mine whatever else is so: $code', ({ past }) => {
    mine
      .and(...past)
      .when(claimF, ask)
      .gives()
  })

  it('cannot be claimed off shift all the same', () => {
    mine.and(offShift(tom, '09:09')).when(claimF, ask).refuses({ code: 'NotOnShift' })
  })
})

describe('doubts in the way of a claim', () => {
  const twoDoubts = room.and(
    doubt({ nest: nestF, no: 24, owner: ben, birds: birdsF, about: '08:52', raised: '09:04' }),
    doubt({ nest: nestF, no: 25, owner: iris, birds: birdsF, about: '08:55', raised: '09:05' }),
  )

  it('are passed by someone who was shown every one of them', () => {
    twoDoubts
      .when({ ...claimF, seenDoubts: [24, 25] }, ask)
      .includes({ type: 'NestClaimed', nest: nestF, person: tom })
  })

  it('are not passed by someone who was shown only one', () => {
    const { reason } = twoDoubts.when({ ...claimF, seenDoubts: [24] }, ask)
    expect(reason).toMatchObject({ code: 'InDoubt' })
    expect(reason?.code === 'InDoubt' && reason.doubts).toContain(25)
  })

  it('do not let their own owner past, shown or not', () => {
    const own = doubt({
      nest: nestF,
      no: 23,
      owner: tom,
      birds: birdsF,
      about: '08:50',
      raised: '09:03',
    })
    room
      .and(own)
      .when({ ...claimF, seenDoubts: [23] }, ask)
      .refuses({ code: 'AnswerFirst', claimNo: 23 })
  })
})
