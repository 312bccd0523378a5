// Fluids for a bird that refused two feeds running, and a decision on an arrival without droppings: when
// the board calls, for what, and once. Who answers, and help called by hand, are in answeringCalls.test.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Given, Order } from '../support/given.ts'
import { birdOf, type Clock, clock, nest, nestOf, released, round } from '../support/roomBuilder.ts'
import {
  ana,
  birdsD,
  birdsF,
  birdsS,
  f1,
  f2,
  halfHourly,
  inc1,
  iris,
  nestD,
  nestF,
  nestS,
  room,
} from './smallRoom.ts'

const visit = (no: number, at: Clock, outcome: Outcome = 'refused', birds = [f1]): RoomEvent =>
  round({ nest: nestF, no, by: ana, birds, at, outcome })
const raised = (given: Given, at: Clock) =>
  given
    .whenClock(at)
    .events.flatMap((event) =>
      event.type === 'RequestRaised'
        ? [{ kind: event.kind, nest: event.nest, bird: event.bird }]
        : [],
    )
const forF1 = [{ kind: 'fluids', nest: nestF, bird: f1 }]
const twice = room.and(visit(6, '08:55'), visit(7, '09:10'))

const rows: readonly { row: string; past: readonly RoomEvent[]; calls: readonly object[] }[] = [
  { row: 'one refusal', past: [visit(6, '09:10')], calls: [] },
  { row: 'two refusals running', past: [visit(6, '08:55'), visit(7, '09:10')], calls: forF1 },
  {
    row: 'two refusals with a feed between them',
    past: [visit(6, '08:55'), visit(7, '09:02', 'some'), visit(8, '09:10')],
    calls: [],
  },
  {
    row: 'two refusals with a visit between them at which it was not fed',
    past: [visit(6, '08:55'), visit(7, '09:02', 'notFed'), visit(8, '09:10')],
    calls: forF1,
  },
  {
    row: 'two refusals and a feed after them',
    past: [visit(6, '08:55'), visit(7, '09:05'), visit(8, '09:10', 'ate')],
    calls: [],
  },
  {
    row: 'two visits at which it was not fed',
    past: [visit(6, '08:55', 'notFed'), visit(7, '09:10', 'notFed')],
    calls: [],
  },
  {
    row: 'a refusal each by two birds',
    past: [visit(6, '08:55'), visit(7, '09:10', 'refused', [f2])],
    calls: [],
  },
  {
    row: 'two refusals by each of two birds',
    past: [visit(6, '08:55', 'refused', [f1, f2]), visit(7, '09:10', 'refused', [f1, f2])],
    calls: [...forF1, { kind: 'fluids', nest: nestF, bird: f2 }],
  },
  {
    row: 'two refusals, the second of which was recorded before the first',
    past: [visit(7, '09:10'), visit(6, '08:55')],
    calls: forF1,
  },
  {
    row: 'two refusals by a bird fed by crop tube',
    past: [
      round({ nest: nestD, no: 6, by: iris, birds: birdsD, at: '08:55', outcome: 'refused' }),
      round({ nest: nestD, no: 7, by: iris, birds: birdsD, at: '09:10', outcome: 'refused' }),
    ],
    calls: [],
  },
]

describe('fluids are called for after', () => {
  it.each(rows)('$row: $calls.length', ({ past, calls }) => {
    expect(raised(room.and(...past), '09:12')).toEqual(calls)
  })

  it('two refusals, fifteen seconds after the second was recorded, so that it can be undone', () => {
    expect(raised(twice, '09:10:14')).toEqual([])
    expect(raised(twice, '09:10:15')).toEqual(forF1)
    const late = room.and(
      visit(6, '08:55'),
      round({
        nest: nestF,
        no: 7,
        by: ana,
        birds: [f1],
        at: '09:05',
        recorded: '09:10',
        outcome: 'refused',
      }),
    )
    expect(raised(late, '09:10:14')).toEqual([])
  })

  it('nothing where the second was taken back in time', () => {
    const back = twice.when(
      { type: 'TakeBackFeed', nest: nestF, claimNo: 7 },
      { by: ana, at: '09:10:08' },
    ).room
    expect(raised(back, '09:12')).toEqual([])
  })

  it('a correction that says so', () => {
    const correct: Order = {
      ...{ type: 'CorrectFeed', nest: nestF, claimNo: 7, reason: 'tapped wrong' },
      answers: [{ bird: f1, outcome: 'refused' }],
    }
    const mended = room
      .and(visit(6, '08:55'), visit(7, '09:05', 'ate'))
      .when(correct, { by: ana, at: '09:10' }).room
    expect(raised(mended, '09:12')).toEqual(forF1)
  })
})

describe('a bird for which fluids are called', () => {
  const calling = twice.whenClock('09:12').room
  const resolve: Order = { type: 'ResolveRequest', request: 'r1' as never }

  it('is called for once, however often it refuses', () => {
    expect(raised(calling.and(visit(8, '09:25')), '09:30')).toEqual([])
    expect(Object.keys(calling.board.requests)).toEqual(['r1'])
  })

  it('is fed by nobody until that is resolved, and its broodmates are', () => {
    const claim: Order = { type: 'ClaimNest', nest: nestF }
    const turn = calling.when(claim, { by: ana, at: '09:26' })
    turn.includes({ type: 'NestClaimed', birds: birdsF.slice(1) } as never)
    const after = calling.when(resolve, { by: iris, at: '09:20' })
    expect(after.reason).toMatchObject({ code: 'NotAllowed' })
  })

  it('is due again as soon as it is resolved', () => {
    const taken = calling.when(
      { type: 'TakeRequest', request: 'r1' as never },
      { by: iris, at: '09:14' },
    ).room
    const done = taken.when(resolve, { by: iris, at: '09:20' }).room
    const turn = done.when({ type: 'ClaimNest', nest: nestF }, { by: ana, at: '09:26' })
    turn.includes({ type: 'NestClaimed', birds: birdsF } as never)
    expect(raised(done, '09:30')).toEqual([])
  })

  it('says why it is not ready where it is alone', () => {
    const alone = room.and(
      nest(nestOf(9), {
        label: 'N',
        incubator: inc1,
        birds: [{ id: birdOf(30), plan: halfHourly }],
      }),
      round({
        nest: nestOf(9),
        no: 6,
        by: ana,
        birds: [birdOf(30)],
        at: '08:55',
        outcome: 'refused',
      }),
      round({
        nest: nestOf(9),
        no: 7,
        by: ana,
        birds: [birdOf(30)],
        at: '09:10',
        outcome: 'refused',
      }),
    )
    alone.when({ type: 'ClaimNest', nest: nestOf(9) }, { by: ana, at: '09:40' }).refuses({
      code: 'NothingReady',
      birds: [{ bird: birdOf(30), why: { type: 'requestOpen', request: 'r1' as never } }],
    })
  })

  it('is called for anew when it refuses again after that', () => {
    const done = calling.and({
      ...{ type: 'RequestResolved', v: 1, request: 'r1' as never, by: iris },
      atMs: clock('09:20'),
    })
    expect(raised(done.and(visit(8, '09:30')), '09:32')).toEqual(forF1)
  })
})

describe('an arrival’s droppings', () => {
  const fluids = (bird = birdsS[0], given = room, at: Clock = '08:40'): Given =>
    given.when(
      {
        type: 'FluidsGiven',
        ...{ bird, fluid: 'saline', route: 'byMouth', given: { unit: 'uL', n: 200 } },
        isWarmed: true,
      },
      { by: iris, at },
    ).room
  const seen = (
    given: Given,
    at: Clock,
    droppings: 'seen' | 'none' | 'notLooked',
    bird = birdsS[0],
  ) => given.when({ type: 'BirdSeen', bird, signs: [], droppings }, { by: ana, at }).room
  const ofS = [{ kind: 'noDroppings', nest: nestS, bird: null }]

  it('are asked for an hour after its fluids, once for the nest', () => {
    const both = fluids(birdsS[1], fluids(), '08:41')
    expect(raised(both, '09:39:59')).toEqual([])
    expect(raised(both, '09:40')).toEqual(ofS)
    expect(raised(both.whenClock('09:40').room, '11:00')).toEqual([])
  })

  it('are asked for an hour after the first fluids, though more were given since', () => {
    const more = fluids(birdsS[0], fluids(birdsS[0], fluids(), '09:00'), '09:20')
    expect(raised(more, '09:39:59')).toEqual([])
    expect(raised(more, '09:40')).toEqual(ofS)
  })

  it('are not asked for once they were seen, and not having looked is not having seen', () => {
    expect(raised(seen(fluids(), '09:00', 'seen'), '11:00')).toEqual([])
    expect(raised(seen(fluids(), '09:00', 'none'), '09:40')).toEqual(ofS)
    expect(raised(seen(fluids(), '09:00', 'notLooked'), '09:40')).toEqual(ofS)
  })

  it('are asked for anew an hour after later fluids', () => {
    const again = fluids(birdsS[0], seen(fluids(), '09:00', 'seen'), '09:30')
    expect(raised(again, '10:29:59')).toEqual([])
    expect(raised(again, '10:30')).toEqual(ofS)
    const resolved = fluids()
      .whenClock('09:40')
      .room.and({
        ...{ type: 'RequestResolved', v: 1, request: 'r1' as never, by: iris },
        atMs: clock('09:50'),
      })
    expect(raised(fluids(birdsS[0], resolved, '09:55'), '10:55')).toEqual(ofS)
  })

  it('are the same whatever the order in which fluids and droppings were told', () => {
    const late = (order: Order, agoMs: number, given: Given) =>
      given.when(order, { by: iris, at: '09:35', agoMs }).room
    const drops: Order = { type: 'BirdSeen', bird: birdsS[0], signs: [], droppings: 'seen' }
    const told = late(drops, 35 * minuteMs, fluids(birdsS[0], fluids(), '09:20'))
    expect(raised(told, '10:19:59')).toEqual([])
    expect(raised(told, '10:20')).toEqual(ofS)
  })

  it('are asked of no bird that was released', () => {
    expect(raised(fluids().and(released(birdsS, halfHourly, '09:10')), '10:00')).toEqual([])
    expect(raised(fluids(f1), '10:00').filter(({ kind }) => kind === 'noDroppings')).toEqual([])
  })
})
