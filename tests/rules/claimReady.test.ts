// Which birds a claim carries: the ready ones this person may feed. Why each of the others is not, how
// early is early enough, and what becomes of an untouched claim elsewhere.

import { describe, expect, it } from 'vitest'
import type { BirdId } from '../../shared/base/values.ts'
import type { NotReady } from '../../shared/rules/rejection.ts'
import type { Given, Order } from '../support/given.ts'
import {
  type Clock,
  claimed,
  clock,
  doubt,
  held,
  nest,
  nestOf,
  opened,
  round,
} from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  birdsD,
  birdsE,
  birdsF,
  f1,
  f2,
  f3,
  f4,
  g1,
  inc1,
  iris,
  lena,
  mSyringe,
  mTube,
  nestD,
  nestE,
  nestF,
  nestG,
  nestM,
  nestS,
  room,
} from './smallRoom.ts'

const claimF: Order = { type: 'ClaimNest', nest: nestF }

/** Visit 30 at 09:10 is what every row about "early" counts from. */
const fedAtTen = room.and(round({ nest: nestF, no: 30, by: iris, birds: birdsF, at: '09:10' }))

type Why = { name: string; given: Given; order: Order; at: Clock; bird: BirdId; why: NotReady }

const whys: readonly Why[] = [
  {
    name: 'still warming',
    given: room,
    order: { type: 'ClaimNest', nest: nestS },
    at: '09:10',
    bird: 'b12' as BirdId,
    why: { type: 'settling' },
  },
  {
    name: 'held itself',
    given: room.and(held({ nest: nestG, bird: g1 }, { by: lena, at: '09:00', lookAgain: '10:00' })),
    order: { type: 'ClaimNest', nest: nestG },
    at: '09:10',
    bird: g1,
    why: { type: 'held', reason: 'limping' },
  },
  {
    name: 'in a nest that is held',
    given: room.and(held({ nest: nestG }, { by: lena, at: '09:00', lookAgain: '10:00' })),
    order: { type: 'ClaimNest', nest: nestG },
    at: '09:10',
    bird: g1,
    why: { type: 'held', reason: 'limping' },
  },
  {
    name: 'fed by a technique this person is not signed off for',
    given: room,
    order: { type: 'ClaimNest', nest: nestD },
    at: '09:35',
    bird: birdsD[0],
    why: { type: 'needsSignOff', technique: 'cropTube', have: [iris] },
  },
  {
    name: 'fed within half its interval',
    given: fedAtTen,
    order: claimF,
    at: '09:24:59',
    bird: f1,
    why: {
      type: 'tooSoon',
      readyAtMs: clock('09:37'),
      fedAtMs: clock('09:10'),
      needs: 'extra',
    },
  },
  {
    name: 'past half its interval, before its window',
    given: fedAtTen,
    order: claimF,
    at: '09:25',
    bird: f1,
    why: {
      type: 'tooSoon',
      readyAtMs: clock('09:37'),
      fedAtMs: clock('09:10'),
      needs: 'sureEarly',
    },
  },
]

describe('a bird that is not ready', () => {
  it.each(whys)('is $name, and the refusal says so', ({ given, order, at, bird, why }) => {
    const { reason } = given.when(order, { by: ana, at })
    expect(reason?.code).toBe('NothingReady')
    const birds = reason?.code === 'NothingReady' ? reason.birds : []
    expect(birds.find((each) => each.bird === bird)?.why).toMatchObject(why)
  })

  it('is named for every bird of the nest', () => {
    const { reason } = fedAtTen.when(claimF, { by: ana, at: '09:20' })
    const birds = reason?.code === 'NothingReady' ? reason.birds : []
    expect(birds.map(({ bird }) => bird)).toEqual(birdsF)
  })
})

const extra = (birds: readonly BirdId[]): Order => ({
  ...claimF,
  extra: { birds: [...birds], reason: 'gaping hard', afterFeed: 30 },
})

describe('a claim before its time', () => {
  it('is granted once the window opens', () => {
    fedAtTen.when(claimF, { by: ana, at: '09:36:59' }).refuses({ code: 'NothingReady' })
    fedAtTen.when(claimF, { by: ana, at: '09:37' }).includes({ type: 'NestClaimed', nest: nestF })
  })

  it('needs only a "sure" from half the interval on', () => {
    const sure: Order = { ...claimF, sureEarly: true }
    fedAtTen.when(sure, { by: ana, at: '09:24:59' }).refuses({ code: 'NothingReady' })
    fedAtTen
      .when(sure, { by: ana, at: '09:25' })
      .includes({ type: 'NestClaimed', nest: nestF, birds: [...birdsF] })
  })

  it('needs birds, a reason and the feed it follows under half the interval', () => {
    fedAtTen.when(extra([f2, f3]), { by: ana, at: '09:15' }).gives({
      type: 'NestClaimed',
      nest: nestF,
      person: ana,
      birds: [f2, f3],
      extra: { birds: [f2, f3], reason: 'gaping hard', afterFeed: 30 },
    })
  })

  it('needs only a "sure" outside feeding hours, half the interval being long over', () => {
    const evening = room.and(round({ nest: nestF, no: 30, by: iris, birds: birdsF, at: '20:50' }))
    const sure: Order = { ...claimF, sureEarly: true }
    evening.when(claimF, { by: ana, at: '22:00' }).refuses({ code: 'NothingReady' })
    evening.when(sure, { by: ana, at: '22:00' }).includes({ type: 'NestClaimed', nest: nestF })
    evening
      .when(sure, { by: ana, at: '06:30', daysLater: 1 })
      .includes({ type: 'NestClaimed', nest: nestF })
  })

  it('does not reach a held bird, an unsigned technique, or a bird still warming', () => {
    const holding = room.and(
      held({ nest: nestG, bird: g1 }, { by: lena, at: '09:00', lookAgain: '10:00' }),
    )
    const plea = { reason: 'gaping hard', afterFeed: 3 }
    const early = (nest: typeof nestG, birds: readonly BirdId[]): Order => ({
      type: 'ClaimNest',
      nest,
      sureEarly: true,
      extra: { birds: [...birds], ...plea },
    })
    const ask = { by: ana, at: '09:10' } as const
    holding.when(early(nestG, [g1]), ask).refuses({ code: 'NothingReady' })
    room.when(early(nestD, birdsD), ask).refuses({ code: 'NothingReady' })
    room.when(early(nestS, ['b12' as BirdId]), ask).refuses({ code: 'NothingReady' })
  })
})

describe('the birds of a claim', () => {
  it('are the ready ones only', () => {
    const twoFed = room.and(round({ nest: nestF, no: 30, by: iris, birds: [f1, f2], at: '09:00' }))
    twoFed
      .when(claimF, { by: ana, at: '09:10' })
      .gives({ type: 'NestClaimed', nest: nestF, person: ana, birds: [f3, f4] })
  })

  it('leave out one that is held', () => {
    const one = held({ nest: nestF, bird: f1 }, { by: lena, at: '09:00', lookAgain: '10:00' })
    room
      .and(one)
      .when(claimF, { by: ana, at: '09:10' })
      .gives({ type: 'NestClaimed', nest: nestF, birds: [f2, f3, f4] })
  })

  it('differ from person to person by sign-off', () => {
    const claimM: Order = { type: 'ClaimNest', nest: nestM }
    // The tubed bird was fed at 08:40, so it is due at 10:40 and never early.
    const late = room.and(round({ nest: nestM, no: 32, by: iris, birds: [mSyringe], at: '09:00' }))
    late
      .when(claimM, { by: ana, at: '10:45' })
      .besideOffers.gives({ type: 'NestClaimed', nest: nestM, person: ana, birds: [mSyringe] })
    late.when(claimM, { by: iris, at: '10:45' }).besideOffers.gives({
      type: 'NestClaimed',
      nest: nestM,
      person: iris,
      birds: [mSyringe, mTube],
    })
  })

  it('are never those without a plan', () => {
    const planless = room.and(
      nest(nestOf(9), {
        label: 'P',
        incubator: inc1,
        birds: [{ id: 'b30' as BirdId, plan: null }],
        at: '08:00',
      }),
    )
    planless
      .when({ type: 'ClaimNest', nest: nestOf(9) }, { by: ana, at: '09:10' })
      .refuses({ code: 'NothingReady' })
  })
})

describe('a claim of mine elsewhere', () => {
  const untouched = claimed({ nest: nestE, no: 40, by: ana, birds: birdsE, at: '09:10' })

  it('is given back in the same record while untouched and younger than two minutes', () => {
    room
      .and(untouched)
      .when(claimF, { by: ana, at: '09:11:59' })
      .gives(
        { type: 'ClaimEnded', nest: nestE, claimNo: 40, how: 'givenBack' },
        { type: 'NestClaimed', nest: nestF, person: ana, birds: [...birdsF] },
      )
  })

  it('is to be finished first at two minutes', () => {
    room
      .and(untouched)
      .when(claimF, { by: ana, at: '09:12' })
      .refuses({ code: 'FinishFirst', nest: nestE })
  })

  it('is to be finished first once its nest is open', () => {
    room
      .and(...opened({ nest: nestE, no: 40, by: ana, birds: birdsE, at: '09:10' }))
      .when(claimF, { by: ana, at: '09:10:30' })
      .refuses({ code: 'FinishFirst', nest: nestE })
  })

  it('is to be finished first once a bird of it is answered', () => {
    room
      .and(untouched, round({ nest: nestE, no: 40, by: ana, birds: [birdsE[0]], at: '09:10' }))
      .when(claimF, { by: ana, at: '09:11' })
      .refuses({ code: 'FinishFirst', nest: nestE })
  })

  it('is kept when the other nest is refused for a later reason', () => {
    const silent = { nest: nestF, no: 41, owner: ben, birds: birdsF } as const
    const after = room
      .and(untouched, doubt({ ...silent, about: '08:50', raised: '09:05' }))
      .when(claimF, { by: ana, at: '09:11' })
      .refuses({ code: 'InDoubt', doubts: [41] })
    expect(after.board.nests[nestE]?.hands).toMatchObject({ type: 'held', person: ana })
  })
})
