// Offers: one person at a time is asked to take a late nest. When the first is made, of which nests and
// to whom, in what order. How they end is in offerEndings.test.ts, when the lead hears in leadTold.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { callTaken, fluidsCalled, helpCalled, offered } from '../support/callBuilder.ts'
import type { Fact, Given } from '../support/given.ts'
import { mentoredBy, onBreak, signedOffFor, unreachable } from '../support/peopleBuilder.ts'
import {
  type Clock,
  claimed,
  clock,
  doubt,
  held,
  offShift,
  opened,
  removed,
  round,
} from '../support/roomBuilder.ts'
import { lateRoom, lateRoomOf } from './lateRoom.ts'
import {
  ana,
  ben,
  birdsE,
  birdsF,
  everyone,
  f1,
  f2,
  f3,
  f4,
  iris,
  lena,
  nestE,
  nestF,
  pia,
  room,
  tom,
  vic,
} from './smallRoom.ts'

const made = (person: PersonId): Fact => ({ type: 'OfferMade', nest: nestF, person, by: null })
const offerOf = (given: Given) => given.board.nests[nestF]?.offer

/** Whom F is offered to, in turn, when nobody answers. */
function askedInTurn(given: Given): readonly (PersonId | undefined)[] {
  const times: readonly Clock[] = ['09:15', '09:15:45', '09:16:30']
  let now = given
  return times.map((at) => {
    now = now.whenClock(at).room
    return offerOf(now)?.person
  })
}

describe('a late nest', () => {
  it('is offered to nobody before it is late by five minutes', () => {
    lateRoom.whenClock('09:14:59').gives()
  })

  it('is offered to one person then, who has 45 seconds', () => {
    lateRoom
      .whenClock('09:15')
      .gives({ ...made(ana), atMs: clock('09:15'), endsAtMs: clock('09:15:45') } as Fact)
  })

  it('is offered to the next person when nobody answers, at once', () => {
    lateRoom.whenClock('09:15:44').gives(made(ana))
    lateRoom
      .whenClock('09:15')
      .room.whenClock('09:15:45')
      .gives({ type: 'OfferEnded', nest: nestF, person: ana, how: 'unanswered' }, made(ben))
  })

  it('is offered to three people and no more', () => {
    expect(askedInTurn(lateRoom)).toEqual([ana, ben, vic])
    const after = lateRoom.whenClock('09:15').room.whenClock('09:15:45').room
    after.whenClock('09:16:30').room.whenClock('09:17:15').includes().leavesOut('OfferMade')
  })

  it('is offered to whoever has been idle longest, to leads after everybody else', () => {
    expect(askedInTurn(lateRoomOf(iris, lena, tom))).toEqual([tom, iris, lena])
    expect(askedInTurn(lateRoomOf(lena, pia, iris))).toEqual([iris, lena, pia])
  })

  it('is offered last to somebody who let an offer pass', () => {
    const passed: readonly RoomEvent[] = [
      offered(nestE, ana, '09:06'),
      {
        type: 'OfferEnded',
        v: 1,
        nest: nestE,
        person: ana,
        how: 'unanswered',
        atMs: clock('09:07'),
      },
    ]
    expect(askedInTurn(lateRoomOf(ana, ben, lena).and(...passed))).toEqual([ben, lena, ana])
  })

  it('is offered again to nobody who declined', () => {
    const declined = lateRoomOf(ana, ben)
      .whenClock('09:15')
      .room.when({ type: 'DeclineOffer', nest: nestF }, { by: ana, at: '09:15:10' })
    declined.gives({ type: 'OfferEnded', nest: nestF, person: ana, how: 'declined' })
    const next = declined.room.whenClock('09:15:10')
    next.gives(made(ben))
    next.room
      .whenClock('09:15:55')
      .includes({ type: 'OfferEnded', person: ben, how: 'unanswered' } as never)
      .leavesOut('OfferMade')
  })

  it('is offered twice at the same time to nobody, and two nests not to one person', () => {
    const both = room
      .and(...everyone.filter((id) => id !== ana && id !== ben).map((id) => offShift(id, '09:06')))
      .whenClock('09:15').room
    const offers = Object.values(both.board.nests).flatMap(({ offer }) => offer ?? [])
    expect(offers.map(({ person }) => person).toSorted()).toEqual([ana, ben])
  })
})

/** People to whom F is not offered, though nobody else is here; and why. */
const notFree: readonly { why: string; who: PersonId; past: readonly RoomEvent[] }[] = [
  { why: 'off shift', who: ana, past: [offShift(ana, '09:07')] },
  { why: 'on a break', who: ana, past: [onBreak(ana, '09:07')] },
  { why: 'removed', who: ana, past: [removed(ana)] },
  { why: 'not heard', who: ana, past: [unreachable(ana, '09:07')] },
  {
    why: 'busy with another nest',
    who: ana,
    past: opened({ nest: nestE, no: 10, by: ana, birds: birdsE, at: '09:07' }),
  },
  {
    why: 'on the way to somebody who called',
    who: ana,
    past: [helpCalled({ no: 1, by: ben, at: '09:07' }), callTaken(1, ana, '09:08')],
  },
  { why: 'not signed off', who: ana, past: [signedOffFor(ana, 'cropTube')] },
  { why: 'a trainee whose mentor is away', who: tom, past: [offShift(lena, '09:07')] },
  { why: 'a trainee without a mentor', who: tom, past: [mentoredBy(tom, null)] },
  {
    why: 'asked about their own silence here',
    who: ana,
    past: [
      doubt({ nest: nestF, no: 10, owner: ana, birds: birdsF, about: '09:00', raised: '09:01' }),
    ],
  },
]

/** Pasts in which F is offered to nobody. */
const notOffered: readonly { why: string; past: readonly RoomEvent[] }[] = [
  { why: 'held', past: [held({ nest: nestF }, { by: lena, at: '09:07', lookAgain: '10:00' })] },
  {
    why: 'held bird by bird',
    past: [f1, f2, f3, f4].map((bird) =>
      held({ nest: nestF, bird }, { by: lena, at: '09:07', lookAgain: '10:00' }),
    ),
  },
  {
    why: 'in somebody’s hands',
    past: [claimed({ nest: nestF, no: 10, by: iris, birds: birdsF, at: '09:08' })],
  },
  {
    why: 'not due',
    past: [round({ nest: nestF, no: 10, by: iris, birds: birdsF, at: '09:05' })],
  },
  {
    why: 'waiting for fluids, bird by bird',
    past: [f1, f2, f3, f4].map((bird, at) =>
      fluidsCalled({ no: 1 + at, nest: nestF, bird, at: '09:05' }),
    ),
  },
  {
    why: 'doubted, and its owner asked for less than a minute',
    past: [
      doubt({
        nest: nestF,
        no: 10,
        owner: iris,
        birds: birdsF,
        about: '09:00',
        raised: '09:14:20',
      }),
    ],
  },
]

describe('an offer', () => {
  it.each(notFree)('is not made to somebody $why', ({ who, past }) => {
    const here = who === tom ? lateRoomOf(tom, lena) : lateRoomOf(ana)
    const { board } = here.and(...past).whenClock('09:15').room
    expect(board.nests[nestF]?.offer?.person).not.toBe(who)
  })

  it.each(notOffered)('is not made of a nest that is $why', ({ past }) => {
    expect(offerOf(lateRoom.and(...past).whenClock('09:15').room)).toBeNull()
  })

  it('is made of a doubted nest a minute after the doubt, to somebody else', () => {
    const doubted = lateRoomOf(ana, iris).and(
      doubt({ nest: nestF, no: 10, owner: ana, birds: birdsF, about: '09:00', raised: '09:14:20' }),
    )
    doubted.whenClock('09:15:19').gives()
    doubted.whenClock('09:15:20').gives(made(iris))
  })

  it('is made at the time of the birds that person may feed', () => {
    const mixed = lateRoomOf(ana).and(
      round({ nest: nestF, no: 10, by: iris, birds: [f1, f2, f3], at: '09:00' }),
    )
    mixed.whenClock('09:15').gives(made(ana))
    lateRoomOf(ana)
      .and(round({ nest: nestF, no: 10, by: iris, birds: birdsF, at: '08:50' }))
      .whenClock('09:24:59')
      .gives()
  })
})
