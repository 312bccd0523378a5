// The table of holds and arrivals: a nest or a bird not to be fed, and birds still warming. A hold
// never takes a nest out of somebody's hands and never lifts by itself; a claim's birds are fixed.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import { birdDueAtMs } from '../../shared/rules/due.ts'
import { type Given, known, type Order } from '../support/given.ts'
import { claimed, clock, held, opened, released, round } from '../support/roomBuilder.ts'
import { type Cell, checkCell } from './cell.ts'
import {
  ana,
  ben,
  birdsF,
  birdsS,
  f1,
  f2,
  f3,
  f4,
  g1,
  halfHourly,
  iris,
  lena,
  nestF,
  nestG,
  nestS,
  pia,
  room,
} from './smallRoom.ts'

const [s1, s2] = birdsS
const ten = { nest: nestF, no: 10, birds: birdsF, at: '09:10' } as const
const inLenasHands = room.and(claimed({ ...ten, by: lena }))
const inBensHands = room.and(claimed({ ...ten, by: ben }))

const lookAgainAtMs = clock('10:15')
const holdNest: Order = { type: 'SetHold', nest: nestF, reason: 'limping', lookAgainAtMs }
const holdBird: Order = { type: 'HoldBird', bird: f1, reason: 'limping', lookAgainAtMs }
const byLena = { by: lena, at: '09:15' } as const
const hold = { reason: 'limping', by: lena, setAtMs: clock('09:15'), lookAgainAtMs }
const nestHeld = { type: 'HoldSet', nest: nestF, hold } as const
const birdHeld = { type: 'HoldSet', nest: nestF, bird: f1, hold } as const
const stop = { type: 'StopCalled', nest: nestF, claimNo: 10, why: 'held' } as const
const struck = { type: 'ClaimBirdsStruck', nest: nestF, claimNo: 10, birds: [f1] } as const

const holds: readonly Cell[] = [
  {
    row: 'SetHold on the nest',
    hands: 'free',
    given: room,
    when: [holdNest, byLena],
    follows: { gives: [nestHeld] },
  },
  {
    row: 'SetHold on the nest',
    hands: 'held by me',
    given: inLenasHands,
    when: [holdNest, byLena],
    follows: { gives: [nestHeld, stop] },
  },
  {
    row: 'SetHold on the nest',
    hands: 'held by another',
    given: inBensHands,
    when: [holdNest, byLena],
    follows: { gives: [nestHeld, stop] },
  },
  {
    row: 'HoldBird',
    hands: 'free',
    given: room,
    when: [holdBird, byLena],
    follows: { gives: [birdHeld] },
  },
  {
    row: 'HoldBird, others left',
    hands: 'held by me',
    given: inLenasHands,
    when: [holdBird, byLena],
    follows: { includes: [birdHeld, struck], leavesOut: ['ClaimEnded'] },
  },
  {
    row: 'HoldBird, others left',
    hands: 'held by another',
    given: inBensHands,
    when: [holdBird, byLena],
    follows: { includes: [birdHeld, struck], leavesOut: ['ClaimEnded'] },
  },
]

describe('the table of holds', () => {
  it.each(holds)('$row · $hands', (cell) => {
    checkCell(cell)
  })

  it.each([
    ['me', lena],
    ['another', ben],
  ] as const)('HoldBird on the last bird of a claim of %s ends it', (_name, holder) => {
    const one = room.and(claimed({ nest: nestG, no: 11, by: holder, birds: [g1], at: '09:10' }))
    const { board } = one.when({ ...holdBird, bird: g1 }, byLena).room
    expect(board.nests[nestG]?.hands).toEqual({ type: 'free' })
    expect(board.birds[g1]?.hold).toMatchObject({ by: lena })
  })

  it('leaves the hands and lets held birds be answered still', () => {
    const after = inBensHands.when(holdNest, byLena).room
    expect(after.board.nests[nestF]?.hands).toMatchObject({ person: ben, birds: birdsF })
    const answers = birdsF.map((bird) => ({ bird, outcome: 'ate' }) as const)
    after
      .when(
        { type: 'AnswerBirds', nest: nestF, claimNo: 10, answers },
        { by: ben, at: '09:16', startedAt: '09:12' },
      )
      .gives(
        { type: 'RoundRecorded', nest: nestF, no: 10 },
        { type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'fed' },
      )
  })

  it('never lifts by itself, not even a day after its look-again', () => {
    const after = room.and(held({ nest: nestF }, { by: lena, at: '09:15', lookAgain: '09:45' }))
    const { board } = after.whenClock('10:00', 1).room
    expect(board.nests[nestF]?.hold).not.toBeNull()
  })

  it('is looked at again within a day', () => {
    room
      .when({ ...holdNest, lookAgainAtMs: clock('09:15', 1) + 1 }, byLena)
      .refuses({ code: 'LookAgainTooFar' })
    room.when({ ...holdNest, lookAgainAtMs: clock('09:15', 1) }, byLena).gives(nestHeldUntilNextDay)
  })

  it('reported on a bird is kept whatever its look-again, and looked at within a day', () => {
    const { board } = room.when({ ...holdBird, lookAgainAtMs: clock('09:15', 9) }, byLena).room
    expect(known(board.birds[f1]?.hold, 'hold').lookAgainAtMs).toBeLessThanOrEqual(
      clock('09:15', 1),
    )
  })
})

const nestHeldUntilNextDay = {
  type: 'HoldSet',
  nest: nestF,
  hold: { ...hold, lookAgainAtMs: clock('09:15', 1) },
} as const

const liftNest: Order = { type: 'LiftHold', nest: nestF, whyLifted: 'walks well' }
const liftBird: Order = { ...liftNest, bird: f1 }
const heldBy = (by: typeof ana, what: { bird?: typeof f1 } = {}) =>
  held({ nest: nestF, ...what }, { by, at: '09:00', lookAgain: '10:00' })
const byAna = { by: ana, at: '09:20' } as const
const lifted = { type: 'HoldLifted', nest: nestF, bird: f1, by: ana, why: 'walks well' } as const

const lifts: readonly Cell[] = [
  {
    row: 'LiftHold',
    hands: 'free',
    given: room.and(heldBy(ana, { bird: f1 })),
    when: [liftBird, byAna],
    follows: { gives: [lifted] },
  },
  {
    row: 'LiftHold',
    hands: 'held by me',
    given: room.and(heldBy(ana, { bird: f1 }), claimed({ ...ten, by: ana, birds: [f2, f3, f4] })),
    when: [liftBird, byAna],
    follows: { gives: [lifted] },
  },
  {
    row: 'LiftHold',
    hands: 'held by another',
    given: room.and(heldBy(ana, { bird: f1 }), claimed({ ...ten, by: ben, birds: [f2, f3, f4] })),
    when: [liftBird, byAna],
    follows: { gives: [lifted] },
  },
]

const dueOf = (after: Given, bird = f1) =>
  birdDueAtMs(after.board, known(after.board.birds[bird], bird))

describe('the table of holds lifted', () => {
  it.each(lifts)('$row · $hands', (cell) => {
    const hands = cell.given.board.nests[nestF]?.hands
    const { board } = checkCell(cell)
    expect(board.nests[nestF]?.hands).toEqual(hands)
    expect(board.birds[f1]?.hold).toBeNull()
  })

  it('makes the bird due from then', () => {
    const after = room.and(heldBy(ana, { bird: f1 })).when(liftBird, byAna).room
    expect(dueOf(after)).toBe(clock('09:20'))
    expect(dueOf(after, f2)).toBe(clock('09:10'))
  })

  it('makes the whole nest due from then when the nest was held', () => {
    const after = room.and(heldBy(lena)).when(liftNest, { by: lena, at: '09:20' }).room
    expect(birdsF.map((bird) => dueOf(after, bird))).toEqual(birdsF.map(() => clock('09:20')))
  })

  it('does not move a bird that is due later anyway', () => {
    const fed = room.and(
      heldBy(ana, { bird: f1 }),
      round({ nest: nestF, no: 8, by: iris, birds: [f1], at: '09:10' }),
    )
    expect(dueOf(fed.when(liftBird, byAna).room)).toBe(clock('09:40'))
  })

  it('is for who set it, or above', () => {
    const anas = room.and(heldBy(ana, { bird: f1 }))
    anas.when(liftBird, { by: ben, at: '09:20' }).refuses({ code: 'NotAllowed' })
    anas.when(liftBird, { by: lena, at: '09:20' }).includes({ type: 'HoldLifted', nest: nestF })
    anas.when(liftBird, { by: pia, at: '09:20' }).includes({ type: 'HoldLifted', nest: nestF })
    const lenas = room.and(heldBy(lena))
    lenas.when(liftNest, byAna).refuses({ code: 'NotAllowed' })
    lenas.when(liftNest, { by: pia, at: '09:20' }).includes({ type: 'HoldLifted', nest: nestF })
  })

  it('of the permit holder is not for a lead', () => {
    const pias = room.and(heldBy(pia))
    pias.when(liftNest, { by: lena, at: '09:20' }).refuses({ code: 'NotAllowed' })
  })

  it('finds nothing where nothing is held', () => {
    room.when(liftNest, { by: lena, at: '09:20' }).refuses({ code: 'NotHeld' })
  })
})

describe('arrivals', () => {
  const release = (...birds: readonly (typeof s1)[]): Order => ({
    type: 'ReleaseArrival',
    birds: [...birds],
    plan: halfHourly,
  })
  const byIris = { by: iris, at: '09:20' } as const
  const one = room.and(released([s1], halfHourly, '09:05'))
  const arrivalReleased = { type: 'ArrivalReleased', plan: halfHourly, by: iris } as const

  it('are due from their release', () => {
    const after = room
      .when(release(s1, s2), byIris)
      .gives({ ...arrivalReleased, birds: [s1, s2], atMs: clock('09:20') })
    expect([dueOf(after, s1), dueOf(after, s2)]).toEqual([clock('09:20'), clock('09:20')])
  })

  it.each([
    ['me', iris],
    ['another', ben],
  ] as const)('released while the nest is in hands of %s wait for the next claim', (_, by) => {
    const claim = { nest: nestS, no: 10, birds: [s1], at: '09:10' } as const
    const after = one
      .and(...opened({ ...claim, by }))
      .when(release(s2), byIris)
      .gives({ ...arrivalReleased, birds: [s2] })
    expect(after.board.nests[nestS]?.hands).toMatchObject({ person: by, birds: [s1] })
  })

  it('are released once', () => {
    one.when(release(s1), byIris).refuses({ code: 'NotSettling' })
  })

  it('stay warming whatever the clock says', () => {
    const { board } = room.whenClock('20:00').room
    expect(board.birds[s1]?.standing).toMatchObject({ type: 'settling' })
    expect(dueOf({ board } as Given, s1)).toBeNull()
  })

  it('come in a box with a look due within twenty minutes, and cannot be fed', () => {
    const box = { type: 'BoxArrived', label: 'X', incubator: 'i1', howMany: 3, size: 'small' }
    const turn = room.when(box as Order, { by: ana, at: '13:02' })
    const [event] = turn.events
    expect(event).toMatchObject({ type: 'NestOpened', lookDueAtMs: clock('13:22') })
    const id = event?.type === 'NestOpened' ? event.nest : nestS
    turn.room
      .when({ type: 'ClaimNest', nest: id }, { by: ana, at: '13:10' })
      .refuses({ code: 'NothingReady' })
  })

  it('fall due for another look twenty minutes after the last', () => {
    const seen: Order = { type: 'BirdSeen', bird: s1, signs: [], droppings: 'none' }
    const { board } = room.when(seen, { by: ana, at: '08:48' }).room
    const standing = known(board.birds[s1], s1).standing
    expect(standing.type === 'settling' && standing.lookDueAtMs).toBe(
      clock('08:48') + 20 * minuteMs,
    )
  })
})
