// Calls answered: everybody who may is asked, exactly one takes it, and it stays until it is resolved.
// Help called by hand reaches the trained and the leads first. A call put to nobody is told the lead.

import { describe, expect, it } from 'vitest'
import type { PersonId, RequestId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import { callTaken, fluidsCalled, helpCalled, requestOf } from '../support/callBuilder.ts'
import { type Fact, type Given, known, type Order } from '../support/given.ts'
import { onBreak, signedOffFor, unreachable } from '../support/peopleBuilder.ts'
import { claimed, clock, nestOf, offShift, privateRef, removed } from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  birdsF,
  everyone,
  f1,
  iris,
  lena,
  nestF,
  pia,
  room,
  tom,
  vic,
} from './smallRoom.ts'

const fluids = fluidsCalled({ no: 1, nest: nestF, bird: f1, at: '09:00' })
const help = helpCalled({ no: 1, by: ana, nest: nestF, at: '09:00' })
const two = [signedOffFor(ben, 'gapeSyringe', 'fluids')] as const
const calling = room.and(...two, fluids)
const at = (by: PersonId, time: `${number}:${number}` = '09:02') => ({ by, at: time }) as const
const order = (type: 'TakeRequest' | 'DeclineRequest' | 'ResolveRequest', no = 1): Order => ({
  type,
  request: requestOf(no),
})
const asked = ({ board }: Given, no = 1) =>
  askedOf(board, known(board.requests[requestOf(no)], 'call'))
const takerOf = ({ board }: Given) => board.requests[requestOf(1)]?.taken?.person ?? null

describe('a call for fluids', () => {
  const away: readonly { why: string; past: RoomEvent }[] = [
    { why: 'is off shift', past: offShift(ben, '09:01') },
    { why: 'is on a break', past: onBreak(ben, '09:01') },
    { why: 'was removed', past: removed(ben) },
    { why: 'is signed off for them no more', past: signedOffFor(ben, 'gapeSyringe') },
    {
      why: 'cannot',
      past: { type: 'RequestDeclined', v: 1, request: requestOf(1), person: ben, atMs: 0 },
    },
  ]

  it('is put to everybody on shift who is signed off for them', () => {
    expect(asked(calling)).toEqual([ben, iris])
  })

  it('is put to them though they are at a nest', () => {
    const busy = calling.and(claimed({ nest: nestF, no: 10, by: ben, birds: birdsF, at: '09:01' }))
    expect(asked(busy)).toEqual([ben, iris])
  })

  it.each(away)('is not put to somebody who $why', ({ past }) => {
    expect(asked(calling.and(past))).toEqual([iris])
  })

  it('is put to whoever comes on shift later', () => {
    const later = calling.and(offShift(iris, '09:01')).when({ type: 'BeginShift' }, at(iris)).room
    expect(asked(later)).toEqual([ben, iris])
  })

  it('is taken by exactly one', () => {
    const taken = calling.when(order('TakeRequest'), at(ben))
    taken.gives({ type: 'RequestTaken', request: requestOf(1), person: ben })
    taken.room
      .when(order('TakeRequest'), at(iris, '09:03'))
      .refuses({ code: 'RequestTaken', person: ben, sinceMs: clock('09:02') })
    taken.room.when(order('TakeRequest'), at(ben, '09:03')).gives()
    expect(takerOf(taken.room)).toBe(ben)
  })

  it.each([ana, lena, pia, vic, tom])('is not taken by %s, who is not signed off', (who) => {
    calling.when(order('TakeRequest'), at(who)).refuses({ code: 'NotAllowed', needs: 'fluids' })
  })

  it('is not taken by somebody on a break, or off shift', () => {
    const off = calling.and(onBreak(ben, '09:01'), offShift(iris, '09:01'))
    off.when(order('TakeRequest'), at(ben)).refuses({ code: 'NotAllowed' })
    off.when(order('TakeRequest'), at(iris)).refuses({ code: 'NotOnShift' })
  })

  it('put back is put to the others, and may be taken again', () => {
    const taken = calling.when(order('TakeRequest'), at(ben)).room
    const back = taken.when(order('DeclineRequest'), at(ben, '09:04'))
    back.gives({ type: 'RequestDeclined', request: requestOf(1), person: ben })
    expect([takerOf(back.room), asked(back.room)]).toEqual([null, [iris]])
    const again = back.room.when(order('TakeRequest'), at(ben, '09:05')).room
    expect(takerOf(again)).toBe(ben)
  })

  it('declined by somebody else stays with whoever took it', () => {
    const taken = calling.when(order('TakeRequest'), at(ben)).room
    const no = taken.when(order('DeclineRequest'), at(iris, '09:03'))
    expect(takerOf(no.room)).toBe(ben)
    no.room.when(order('DeclineRequest'), at(iris, '09:04')).gives()
  })

  it('is resolved by whoever took it, with a note, and is gone', () => {
    const taken = calling.when(order('TakeRequest'), at(ben)).room
    const done = taken.when(order('ResolveRequest'), {
      ...at(ben, '09:09'),
      private: privateRef(9),
    })
    done.gives({ type: 'RequestResolved', request: requestOf(1), by: ben, note: privateRef(9) })
    expect(done.room.board.requests).toEqual({})
    done.room.when(order('ResolveRequest'), at(ben, '09:10')).refuses({ code: 'RequestUnknown' })
    done.room.when(order('TakeRequest'), at(iris, '09:10')).refuses({ code: 'RequestUnknown' })
    done.room.when(order('DeclineRequest'), at(iris, '09:10')).refuses({ code: 'RequestUnknown' })
  })

  it('is resolved by a lead too, and by nobody else', () => {
    const taken = calling.when(order('TakeRequest'), at(ben)).room
    taken.when(order('ResolveRequest'), at(iris)).refuses({ code: 'NotAllowed', needs: 'lead' })
    taken.when(order('ResolveRequest'), at(lena)).gives({ type: 'RequestResolved' })
  })
})

describe('whoever has taken a call', () => {
  const taken = calling.and(callTaken(1, ben, '09:02'))

  it('does not leave before it is resolved or put back', () => {
    taken.when({ type: 'EndShift' }, at(ben, '09:03')).refuses({ code: 'ResolveFirst' })
    taken.when({ type: 'BeginBreak' }, at(ben, '09:03')).refuses({ code: 'ResolveFirst' })
    const back = taken.when(order('DeclineRequest'), at(ben, '09:04')).room
    back.when({ type: 'EndShift' }, at(ben, '09:05')).gives({ type: 'ShiftEnded', person: ben })
  })

  it('who is removed puts back every call they had', () => {
    const both = taken.and(helpCalled({ no: 2, by: ana, at: '09:02' }), callTaken(2, ben, '09:03'))
    const { board } = both.when({ type: 'RemovePerson', person: ben }, at(pia, '09:05')).room
    expect(Object.values(board.requests).map((call) => call.taken)).toEqual([null, null])
  })
})

describe('a call that is put to nobody', () => {
  const told = (given: Given): readonly (RequestId | undefined)[] =>
    given
      .whenClock('09:05')
      .events.flatMap((event) =>
        event.type === 'LeadTold' && event.why === 'nobodyForRequest' ? [event.request] : [],
      )

  it('is told the lead, once', () => {
    const nobody = room.and(signedOffFor(iris, 'gapeSyringe'), fluids)
    expect(told(nobody)).toEqual([requestOf(1)])
    expect(told(nobody.whenClock('09:04').room)).toEqual([])
  })

  it('is told the lead when the last of those asked cannot', () => {
    const first = calling.when(order('DeclineRequest'), at(ben)).room
    expect(told(first)).toEqual([])
    const last = first.when(order('DeclineRequest'), at(iris, '09:03')).room
    expect(told(last)).toEqual([requestOf(1)])
  })

  it('is told the lead when the last of those asked goes home', () => {
    expect(told(calling.and(offShift(ben, '09:03'), offShift(iris, '09:03')))).toEqual([
      requestOf(1),
    ])
  })

  it('is no news while somebody has taken it', () => {
    const taken = calling.and(callTaken(1, ben, '09:02'), signedOffFor(iris, 'cropTube'))
    expect(told(taken)).toEqual([])
  })
})

describe('help', () => {
  const call = (more: object = {}): Order => ({ type: 'CallHelp', nest: nestF, ...more }) as Order

  it('is called in one report, with a note or without', () => {
    room.when(call(), at(ana)).gives({
      type: 'RequestRaised',
      kind: 'help',
      why: 'byHand',
      nest: nestF,
      by: ana,
      bird: null,
    })
    const noted = room.when(call(), { ...at(ana), private: privateRef(9) })
    expect(noted.room.board.requests[requestOf(1)]).toMatchObject({ noteId: 'x9', nest: nestF })
  })

  it('is called without a nest, and for one nobody knows all the same', () => {
    room.when({ type: 'CallHelp' }, at(ana)).gives({ type: 'RequestRaised', nest: null } as Fact)
    room
      .when(call({ nest: nestOf(99) }), at(ana))
      .gives({ type: 'RequestRaised', nest: null } as Fact)
  })

  it('is called once by one person for one nest, and by another or for another again', () => {
    const once = room.and(help)
    once.when(call(), at(ana)).gives()
    once.when(call(), at(ben)).gives({ type: 'RequestRaised', by: ben } as Fact)
    once.when({ type: 'CallHelp' }, at(ana)).gives({ type: 'RequestRaised', nest: null } as Fact)
  })

  it('reaches everybody trained and every lead on shift, but not whoever calls', () => {
    expect(asked(room.and(help))).toEqual([iris, lena, pia])
    expect(asked(room.and(helpCalled({ no: 1, by: iris, at: '09:00' })))).toEqual([lena, pia])
  })

  it('reaches everybody else on shift where none of these is here, or all of them cannot', () => {
    const alone = room.and(help, ...[iris, lena, pia].map((id) => offShift(id, '09:01')))
    expect(asked(alone)).toEqual([ben, vic, tom])
    const cannot = [iris, lena, pia].reduce(
      (now, who) => now.when(order('DeclineRequest'), at(who)).room,
      room.and(help),
    )
    expect(asked(cannot)).toEqual([ben, vic, tom])
  })

  it('may be taken by anybody on shift', () => {
    for (const who of everyone.filter((id) => id !== ana)) {
      room
        .and(help)
        .when(order('TakeRequest'), at(who))
        .gives({ type: 'RequestTaken', person: who })
    }
  })

  it('is resolved by whoever called', () => {
    room
      .and(help)
      .when(order('ResolveRequest'), at(ana))
      .gives({ type: 'RequestResolved', by: ana })
  })

  it('leaves every bird to be fed', () => {
    room
      .and(help)
      .when({ type: 'ClaimNest', nest: nestF }, { by: ben, at: '09:10' })
      .includes({ type: 'NestClaimed', birds: birdsF } as never)
  })

  it('is set aside, not refused, where there are fifty calls already', () => {
    const many = room.and(
      Array.from({ length: 50 }, (_, n) => helpCalled({ no: 1 + n, by: tom, at: '09:00' })),
    )
    const turn = many.when(call(), at(ana))
    turn.includes({ type: 'ReportSetAside', why: 'boardFull' } as never)
  })

  it('waits for whoever took it, though they are heard no more', () => {
    const taken = room.and(help, callTaken(1, lena, '09:01'), unreachable(lena, '09:03'))
    expect(takerOf(taken.whenClock('09:04').room)).toBe(lena)
  })
})
