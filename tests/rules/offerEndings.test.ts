// Offers that stand, and how each ends: taken, declined, unanswered, or by itself where the nest or the
// person no longer qualifies; and how long it is remembered whom a nest was offered to.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { openingEvents } from '../../shared/rules/founding.ts'
import { callTaken, helpCalled, offered } from '../support/callBuilder.ts'
import type { Fact, Given, Order, Said, Turn } from '../support/given.ts'
import { onBreak, unreachable } from '../support/peopleBuilder.ts'
import { type Clock, clock, opened, round } from '../support/roomBuilder.ts'
import { lateRoom, lateRoomOf } from './lateRoom.ts'
import {
  ana,
  ben,
  birdsE,
  birdsF,
  f1,
  g1,
  iris,
  lena,
  mSyringe,
  nestE,
  nestF,
  nestG,
  nestM,
  pia,
} from './smallRoom.ts'

const made = (person: PersonId): Fact => ({ type: 'OfferMade', nest: nestF, person, by: null })
const over = (person: PersonId): Fact => ({ type: 'OfferEnded', nest: nestF, person, how: 'over' })
const offerOf = (given: Given) => given.board.nests[nestF]?.offer

const asked = lateRoom.whenClock('09:15').room
const say = (by: PersonId, at: Clock = '09:15:20'): Said => ({ by, at })

/** What ends Ana's offer of 09:15, and what the clock makes of it in the same turn or the next. */
const endings: readonly { why: string; order: Order; said: Said; gives: readonly Fact[] }[] = [
  {
    why: 'she claims it',
    order: { type: 'ClaimNest', nest: nestF },
    said: say(ana),
    gives: [{ type: 'OfferEnded', nest: nestF, person: ana, how: 'taken' }],
  },
  {
    why: 'somebody else claims it',
    order: { type: 'ClaimNest', nest: nestF },
    said: say(ben),
    gives: [over(ana)],
  },
  {
    why: 'she opens it',
    order: { type: 'StartFeed', nest: nestF },
    said: say(ana),
    gives: [{ type: 'OfferEnded', nest: nestF, person: ana, how: 'taken' }],
  },
  {
    why: 'she claims another nest',
    order: {
      type: 'ClaimNest',
      nest: nestE,
      extra: { birds: birdsE, reason: 'gaping hard', afterFeed: 6 },
    },
    said: say(ana, '09:15:30'),
    gives: [over(ana), made(ben)],
  },
  {
    why: 'it is held',
    order: { type: 'SetHold', nest: nestF, reason: 'limping', lookAgainAtMs: clock('10:00') },
    said: say(lena),
    gives: [over(ana)],
  },
  {
    why: 'it was fed',
    order: {
      type: 'AnswerBirds',
      nest: nestF,
      answers: birdsF.map((bird) => ({ bird, outcome: 'ate' })),
    },
    said: { ...say(ben), startedAt: '09:12' },
    gives: [over(ana)],
  },
  {
    why: 'she may have fed it herself',
    order: { type: 'StartFeed', nest: nestF },
    said: { ...say(iris), agoMs: 120_000 },
    gives: [over(ana)],
  },
  {
    why: 'she goes home',
    order: { type: 'EndShift' },
    said: say(ana),
    gives: [over(ana), made(ben)],
  },
  {
    why: 'she takes a break',
    order: { type: 'BeginBreak' },
    said: say(ana),
    gives: [over(ana), made(ben)],
  },
  {
    why: 'she is removed',
    order: { type: 'RemovePerson', person: ana },
    said: say(pia),
    gives: [over(ana), made(ben)],
  },
  {
    why: 'she is signed off no more',
    order: { type: 'SetSignOffs', person: ana, signOffs: [] },
    said: say(pia),
    gives: [over(ana), made(ben)],
  },
]

/** Facts about offers of a turn and of the clock right after it. */
function offersOf(turn: Turn, at: Clock): readonly RoomEvent[] {
  const after = turn.room.whenClock(at)
  return [...turn.events, ...after.events].filter(({ type }) => type.startsWith('Offer'))
}

describe('an offer that stands', () => {
  it.each(endings)('ends when $why', ({ order, said, gives }) => {
    const turn = asked.when(order, said)
    expect(turn.reason).toBeNull()
    expect(offersOf(turn, said.at)).toMatchObject(gives)
  })

  it('leaves no blame when it ends by itself: the person may be asked again', () => {
    const { board } = asked.when({ type: 'BeginBreak' }, say(ana)).room.whenClock('09:15:20').room
    expect(board.people[ana]?.unanswered).toBe(0)
    expect(board.nests[nestF]?.tried).toEqual([])
  })

  it('ends when its person is heard no more', () => {
    asked.and(unreachable(ana, '09:15:20')).whenClock('09:15:20').gives(over(ana), made(ben))
  })

  it('ends when the day closes', () => {
    const evening = lateRoomOf(ana).and(
      round({ nest: nestF, no: 10, by: iris, birds: birdsF, at: '20:24:40' }),
      round({ nest: nestE, no: 11, by: iris, birds: birdsE, at: '20:50' }),
      round({ nest: nestG, no: 12, by: iris, birds: [g1], at: '20:50' }),
      round({ nest: nestM, no: 13, by: iris, birds: [mSyringe], at: '20:50' }),
    )
    const late = evening.whenClock('20:59:40').room
    expect(offerOf(late)?.person).toBe(ana)
    late.whenClock('21:00').includes(over(ana) as never, { type: 'DayClosed' } as never)
  })

  it('ends without blame when the server starts, and its 45 seconds begin anew', () => {
    const started = asked.and(...openingEvents(asked.board, clock('09:15:30')))
    started
      .whenClock('09:15:30')
      .gives(over(ana), { ...made(ana), endsAtMs: clock('09:16:15') } as Fact)
  })

  it('is for its person alone to decline', () => {
    asked.when({ type: 'DeclineOffer', nest: nestF }, say(ben)).gives()
    asked.when({ type: 'DeclineOffer', nest: nestE }, say(ana)).gives()
  })
})

describe('whom a nest was offered to', () => {
  const passedBy = (who: PersonId): RoomEvent[] => [
    offered(nestF, who, '09:12'),
    {
      ...{ type: 'OfferEnded', v: 1, nest: nestF, person: who, how: 'declined' },
      atMs: clock('09:12:30'),
    },
  ]
  const tried = lateRoom.and(...passedBy(ana), ...passedBy(ben))
  const triedAfter = (order: Order, said: Said) =>
    tried.when(order, said).room.board.nests[nestF]?.tried

  it('is remembered', () => {
    expect(tried.board.nests[nestF]?.tried).toEqual([ana, ben])
  })

  it('is forgotten of a nest on any feed', () => {
    const some: Order = {
      type: 'AnswerBirds',
      nest: nestF,
      answers: [{ bird: f1, outcome: 'some' }],
    }
    expect(triedAfter(some, { by: iris, at: '09:13' })).toEqual([])
  })

  it('is forgotten for a person who becomes free again', () => {
    const busy = tried.and(...opened({ nest: nestE, no: 10, by: ana, birds: birdsE, at: '09:13' }))
    const fed = birdsE.map((bird) => ({ bird, outcome: 'ate' }) as const)
    const answer: Order = { type: 'AnswerBirds', nest: nestE, claimNo: 10, answers: fed }
    const { board } = busy.when(answer, { by: ana, at: '09:14' }).room
    expect(board.nests[nestF]?.tried).toEqual([ben])
    const back = tried
      .and(onBreak(ben, '09:13'))
      .when({ type: 'EndBreak' }, { by: ben, at: '09:14' })
    expect(back.room.board.nests[nestF]?.tried).toEqual([ana])
  })

  it('is forgotten for a person who is heard again, or is done with a call', () => {
    const heard = tried.and(unreachable(ana, '09:13'), {
      ...{ type: 'PersonReachable', v: 1, person: ana, atMs: clock('09:14') },
    })
    expect(heard.board.nests[nestF]?.tried).toEqual([ben])
    const called = tried.and(
      helpCalled({ no: 1, by: iris, at: '09:12' }),
      callTaken(1, ana, '09:13'),
    )
    const order: Order = { type: 'ResolveRequest', request: 'r1' as never }
    const { board } = called.when(order, { by: ana, at: '09:14' }).room
    expect(board.nests[nestF]?.tried).toEqual([ben])
    const back = called.when(
      { type: 'DeclineRequest', request: 'r1' as never },
      { by: ana, at: '09:14' },
    )
    expect(back.room.board.nests[nestF]?.tried).toEqual([ben])
  })
})
