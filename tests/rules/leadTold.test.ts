// What the lead is told of late nests, once for each lateness: nobody here is signed off (five minutes
// late), three were asked, or it is ten minutes late for whatever reason. And how a notice goes.

import { describe, expect, it } from 'vitest'
import type { RoomEvent } from '../../shared/board/events.ts'
import { fluidsCalled, offered } from '../support/callBuilder.ts'
import type { Fact, Given } from '../support/given.ts'
import { onBreak, signedOffFor } from '../support/peopleBuilder.ts'
import {
  type Clock,
  claimed,
  clock,
  doubt,
  ended,
  held,
  offShift,
  opened,
  round,
} from '../support/roomBuilder.ts'
import { lateRoom, lateRoomOf } from './lateRoom.ts'
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
  iris,
  lena,
  mSyringe,
  nestD,
  nestE,
  nestF,
  nestG,
  nestM,
  pia,
  room,
} from './smallRoom.ts'

const times: readonly Clock[] = [
  ...(['09:14:59', '09:15', '09:15:45', '09:16:30', '09:17:15', '09:18', '09:19:59'] as const),
  ...(['09:20', '09:25', '09:40', '10:00'] as const),
]

/** What the lead is told of this nest as the clock goes on, with the times. */
function told(given: Given, nest = nestF) {
  let now = given
  return times.flatMap((at) => {
    const turn = now.whenClock(at)
    now = turn.room
    return turn.events.flatMap((event) =>
      event.type === 'LeadTold' && event.nest === nest ? [{ at, why: event.why }] : [],
    )
  })
}

const busy = (who: typeof ana): readonly RoomEvent[] =>
  opened({ nest: nestE, no: 10, by: who, birds: birdsE, at: '09:07', until: '20:00' })

const cells: readonly { row: string; given: Given; told: readonly { at: Clock; why: string }[] }[] =
  [
    {
      row: 'nobody on shift is signed off for its birds',
      given: lateRoomOf(ana).and(signedOffFor(ana, 'cropTube')),
      told: [{ at: '09:15', why: 'nobodySignedOff' }],
    },
    {
      row: 'the only one signed off is busy',
      given: lateRoomOf(ana).and(busy(ana)),
      told: [{ at: '09:20', why: 'lateTen' }],
    },
    {
      row: 'the only one signed off is on a break',
      given: lateRoomOf(ana, iris).and(signedOffFor(iris, 'fluids'), onBreak(ana, '09:08')),
      told: [{ at: '09:20', why: 'lateTen' }],
    },
    {
      row: 'three were asked, and nobody answered',
      given: lateRoom,
      told: [{ at: '09:17:15', why: 'threeAsked' }],
    },
    {
      row: 'two were asked, and there is no third',
      given: lateRoomOf(ana, ben),
      told: [{ at: '09:20', why: 'lateTen' }],
    },
    { row: 'nobody is on shift', given: lateRoomOf(), told: [] },
    {
      row: 'it is in hands',
      given: lateRoom.and(
        claimed({ nest: nestF, no: 10, by: iris, birds: birdsF, at: '09:08', until: '20:00' }),
      ),
      told: [],
    },
    {
      row: 'it is held',
      given: lateRoom.and(held({ nest: nestF }, { by: lena, at: '09:07', lookAgain: '10:00' })),
      told: [],
    },
    {
      row: 'all its birds wait for fluids',
      given: lateRoom.and(
        [f1, f2, f3, f4].map((bird, at) =>
          fluidsCalled({ no: 1 + at, nest: nestF, bird, at: '09:05' }),
        ),
      ),
      told: [],
    },
    {
      row: 'its silence is asked of its owner until 09:25',
      given: lateRoomOf(ana).and(
        busy(ana),
        doubt({ nest: nestF, no: 11, owner: ana, birds: birdsF, about: '09:10', raised: '09:24' }),
      ),
      told: [{ at: '09:25', why: 'lateTen' }],
    },
    {
      row: 'only some of its birds are late',
      given: lateRoomOf(ana).and(
        busy(ana),
        round({ nest: nestF, no: 11, by: iris, birds: [f1, f2, f3], at: '09:05' }),
      ),
      told: [{ at: '09:20', why: 'lateTen' }],
    },
  ]

describe('the lead is told', () => {
  it.each(cells)('$row', ({ given, told: expected }) => {
    expect(told(given)).toEqual(expected)
  })

  it('once, whatever comes after it', () => {
    const nobody = lateRoomOf(ana).and(signedOffFor(ana, 'cropTube')).whenClock('09:15').room
    expect(told(nobody.and(signedOffFor(ana, 'gapeSyringe')))).toEqual([])
  })

  it('once, though one bird of the nest is held in between', () => {
    const hold = held({ nest: nestF, bird: f1 }, { by: iris, at: '09:30', lookAgain: '10:00' })
    expect(told(lateRoomOf(ana).and(busy(ana)).whenClock('09:21').room.and(hold))).toEqual([])
  })

  it('anew of a lateness that begins after a feed', () => {
    const fed = round({ nest: nestF, no: 11, by: iris, birds: birdsF, at: '09:22' })
    const later = lateRoomOf(ana).and(busy(ana)).whenClock('09:21').room.and(fed)
    later.whenClock('10:01:59').leavesOut('OfferMade')
    expect(later.whenClock('10:02').events).toContainEqual(
      expect.objectContaining({ type: 'LeadTold', why: 'lateTen', nest: nestF }),
    )
  })

  it('anew of a lateness that begins after the crops were seen full', () => {
    const told = lateRoomOf(ana).and(busy(ana)).whenClock('09:21').room
    const looks = birdsF.map((bird) => ({ bird, crop: 'full' }) as const)
    const looked = told.when({ type: 'Looked', nest: nestF, looks }, { by: iris, at: '09:22' }).room
    expect(looked.whenClock('10:02').events).toContainEqual(
      expect.objectContaining({ type: 'LeadTold', why: 'lateTen', nest: nestF }),
    )
  })

  it('of each nest by itself', () => {
    const evening = lateRoomOf(ana).and(busy(ana)).whenClock('09:45')
    const nests = evening.events.flatMap((event) => (event.type === 'LeadTold' ? [event.nest] : []))
    expect(nests.toSorted()).toEqual([nestF, nestG, nestM].toSorted())
    const numbers = evening.room.board.notices.map(({ no }) => no)
    expect(new Set(numbers).size).toBe(numbers.length)
  })

  it('of the tubed nests nobody here may feed, and of no others', () => {
    const untubed = lateRoomOf(ana, ben).and(
      round({ nest: nestF, no: 11, by: iris, birds: birdsF, at: '10:50' }),
      round({ nest: nestE, no: 12, by: iris, birds: birdsE, at: '10:50' }),
      round({ nest: nestG, no: 13, by: iris, birds: [g1], at: '10:50' }),
      round({ nest: nestM, no: 14, by: iris, birds: [mSyringe], at: '11:05' }),
    )
    expect(untubed.whenClock('11:10').events).toMatchObject([
      { type: 'LeadTold', why: 'nobodySignedOff', nest: nestM },
      { type: 'LeadTold', why: 'nobodySignedOff', nest: nestD },
    ])
  })
})

describe('a notice', () => {
  const once = lateRoomOf(ana, lena).and(busy(ana)).whenClock('09:21').room
  const [notice] = once.board.notices
  const read = { type: 'Acknowledge', notice: notice?.no ?? 0 } as const

  it('stands until a lead has read it', () => {
    expect(once.whenClock('09:50').room.board.notices).toContainEqual(notice)
    const after = once.when(read, { by: lena, at: '09:22' })
    after.gives({ type: 'NoticeSeen', no: read.notice, by: lena } as Fact)
    expect(after.room.board.notices).toEqual([])
    after.room.when(read, { by: pia, at: '09:23' }).gives()
  })

  it('read does not come again for the same lateness', () => {
    expect(told(once.when(read, { by: lena, at: '09:22' }).room)).toEqual([])
  })

  it('goes to nobody who does not lead', () => {
    once.when(read, { by: ana, at: '09:22' }).refuses({ code: 'NotAllowed' })
  })
})

describe('a lead', () => {
  const ask = (person: typeof ana) => ({ type: 'OfferNest', nest: nestF, person }) as const
  const said = { by: lena, at: '09:12' } as const
  const bens = { nest: nestE, no: 10, by: ben, birds: birdsE, at: '09:11' } as const

  it('may ask one person, before the board does', () => {
    lateRoom
      .when(ask(ben), said)
      .gives({ type: 'OfferMade', nest: nestF, person: ben, by: lena, endsAtMs: clock('09:12:45') })
  })

  it('may ask somebody who declined', () => {
    const declined = lateRoom.and(offered(nestF, ben, '09:11'), {
      ...{ type: 'OfferEnded', v: 1, nest: nestF, person: ben, how: 'declined' },
      atMs: clock('09:11:30'),
    })
    declined.when(ask(ben), said).includes({ type: 'OfferMade', person: ben } as never)
  })

  it('lets go whoever the board was asking', () => {
    lateRoom
      .and(offered(nestF, ana, '09:11:50'))
      .when(ask(ben), said)
      .gives(
        { type: 'OfferEnded', nest: nestF, person: ana, how: 'over' },
        { type: 'OfferMade', nest: nestF, person: ben, by: lena },
      )
  })

  it('asks the same person once', () => {
    lateRoom
      .and(offered(nestF, ben, '09:11:50'))
      .when(ask(ben), said)
      .gives()
  })

  const nobody: readonly { why: string; past: readonly RoomEvent[]; code: never }[] = [
    { why: 'off shift', past: [offShift(ben, '09:10')], code: 'NotOnShift' as never },
    { why: 'on a break', past: [onBreak(ben, '09:10')], code: 'OnBreak' as never },
    { why: 'not signed off', past: [signedOffFor(ben)], code: 'NothingReady' as never },
    { why: 'at another nest', past: opened(bens), code: 'FinishFirst' as never },
    { why: 'on the way to another nest', past: [claimed(bens)], code: 'NotFree' as never },
    {
      why: 'to say what happened here',
      past: [
        doubt({ nest: nestF, no: 11, owner: ben, birds: birdsF, about: '09:00', raised: '09:01' }),
      ],
      code: 'AnswerFirst' as never,
    },
  ]

  it.each(nobody)('may not ask somebody $why', ({ past, code }) => {
    lateRoom
      .and(...past)
      .when(ask(ben), said)
      .refuses({ code })
  })

  it('may not ask somebody who is asked about another nest', () => {
    room
      .and(offered(nestE, ben, '09:11:50'))
      .when(ask(ben), said)
      .refuses({ code: 'NotFree' })
  })

  it('may not ask for a nest in hands, or one whose silence is asked of its owner', () => {
    const tens = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10' } as const
    lateRoom.and(claimed(tens)).when(ask(ben), said).refuses({ code: 'NestTaken' })
    lateRoom
      .and(claimed(tens), ended(tens, 'lapsed', '09:11:30'))
      .and(doubt({ ...tens, owner: ana, about: '09:10', raised: '09:11:30' }))
      .when(ask(ben), said)
      .refuses({ code: 'NotFree' })
  })
})
