// The table of claims: claim, give back, more time, start, called away, and who goes home, for a nest
// that is free, mine, or somebody else's. A lease is two minutes to get there and twice the usual time.

import { describe, expect, it } from 'vitest'
import {
  type Clock,
  claimed,
  clock,
  ended,
  nest,
  nestOf,
  opened,
  round,
} from '../support/roomBuilder.ts'
import { type Cell, checkCell } from './cell.ts'
import {
  ana,
  ben,
  birdsE,
  birdsF,
  f1,
  f2,
  f3,
  f4,
  halfHourly,
  inc1,
  nestE,
  nestF,
  room,
} from './smallRoom.ts'

const claimF = { type: 'ClaimNest', nest: nestF } as const
const giveBackF = { type: 'GiveBack', nest: nestF, claimNo: 10 } as const
const calledAwayF = { type: 'CalledAway', nest: nestF, claimNo: 10 } as const
const ten = { nest: nestF, no: 10, birds: birdsF, at: '09:10' } as const

const mine = room.and(claimed({ ...ten, by: ana }))
const others = room.and(claimed({ ...ten, by: ben }))
const mineOpen = room.and(...opened({ ...ten, by: ana }))
const mineAnswered = mine.and(round({ ...ten, by: ana, birds: [f1, f2] }))
/** Claim 10 was mine and has ended; nobody has the nest. */
const mineOnce = mine.and(ended(ten, 'givenBack', '09:10:30'))

const cells: readonly Cell[] = [
  {
    row: 'ClaimNest',
    hands: 'free',
    given: room,
    when: [claimF, { by: ana, at: '09:10' }],
    follows: {
      gives: [
        {
          type: 'NestClaimed',
          nest: nestF,
          person: ana,
          birds: [...birdsF],
          atMs: clock('09:10'),
          startIs: 'estimated',
          leaseEndsAtMs: clock('09:25'),
        },
      ],
    },
  },
  {
    row: 'ClaimNest',
    hands: 'held by me',
    given: mine,
    when: [claimF, { by: ana, at: '09:11' }],
    follows: { gives: [] },
  },
  {
    row: 'ClaimNest',
    hands: 'held by another',
    given: others,
    when: [claimF, { by: ana, at: '09:11' }],
    follows: { refuses: { code: 'NestTaken', person: ben } },
  },
  {
    row: 'GiveBack, which had lapsed',
    hands: 'free',
    given: mineOnce,
    when: [giveBackF, { by: ana, at: '09:11' }],
    follows: { gives: [] },
  },
  {
    row: 'GiveBack, untouched and younger than 2 min',
    hands: 'held by me',
    given: mine,
    when: [giveBackF, { by: ana, at: '09:11:59' }],
    follows: { gives: [{ type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'givenBack' }] },
  },
  {
    row: 'GiveBack, untouched for 2 min',
    hands: 'held by me',
    given: mine,
    when: [giveBackF, { by: ana, at: '09:12' }],
    follows: { refuses: { code: 'SayWhatHappenedFirst' } },
  },
  {
    row: 'GiveBack, nest open',
    hands: 'held by me',
    given: mineOpen,
    when: [giveBackF, { by: ana, at: '09:10:30' }],
    follows: { refuses: { code: 'SayWhatHappenedFirst' } },
  },
  {
    row: 'GiveBack, a bird answered',
    hands: 'held by me',
    given: mineAnswered,
    when: [giveBackF, { by: ana, at: '09:10:30' }],
    follows: { refuses: { code: 'SayWhatHappenedFirst' } },
  },
  {
    row: 'GiveBack',
    hands: 'held by another',
    given: others,
    when: [giveBackF, { by: ana, at: '09:11' }],
    follows: { refuses: { code: 'NotYours' } },
  },
  {
    row: 'CalledAway with birds unanswered',
    hands: 'held by me',
    given: mineAnswered,
    when: [calledAwayF, { by: ana, at: '09:14' }],
    follows: { gives: [{ type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'partly' }] },
  },
  {
    row: 'CalledAway from an open nest, nothing answered',
    hands: 'held by me',
    given: mineOpen,
    when: [calledAwayF, { by: ana, at: '09:14' }],
    follows: { gives: [{ type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'partly' }] },
  },
  {
    row: 'CalledAway, untouched',
    hands: 'held by me',
    given: mine,
    when: [calledAwayF, { by: ana, at: '09:11' }],
    follows: { gives: [{ type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'givenBack' }] },
  },
  {
    row: 'EndShift',
    hands: 'free',
    given: room,
    when: [{ type: 'EndShift' }, { by: ana, at: '09:11' }],
    follows: { gives: [{ type: 'ShiftEnded', person: ana }] },
  },
  {
    row: 'EndShift',
    hands: 'held by me',
    given: mine,
    when: [{ type: 'EndShift' }, { by: ana, at: '09:11' }],
    follows: { refuses: { code: 'FinishFirst', nest: nestF } },
  },
  {
    row: 'EndShift',
    hands: 'held by another',
    given: others,
    when: [{ type: 'EndShift' }, { by: ana, at: '09:11' }],
    follows: { gives: [{ type: 'ShiftEnded', person: ana }] },
  },
  {
    row: 'BeginBreak',
    hands: 'free',
    given: room,
    when: [{ type: 'BeginBreak' }, { by: ana, at: '09:11' }],
    follows: { gives: [{ type: 'BreakBegun', person: ana }] },
  },
  {
    row: 'BeginBreak',
    hands: 'held by me',
    given: mine,
    when: [{ type: 'BeginBreak' }, { by: ana, at: '09:11' }],
    follows: { refuses: { code: 'FinishFirst', nest: nestF } },
  },
  {
    row: 'BeginBreak',
    hands: 'held by another',
    given: others,
    when: [{ type: 'BeginBreak' }, { by: ana, at: '09:11' }],
    follows: { gives: [{ type: 'BreakBegun', person: ana }] },
  },
]

describe('the table of claims', () => {
  it.each(cells)('$row · $hands', (cell) => {
    checkCell(cell)
  })

  it('leaves the birds nobody answered due after a call away', () => {
    const after = mineAnswered.when(calledAwayF, { by: ana, at: '09:14' }).room
    after
      .when(claimF, { by: ben, at: '09:15' })
      .besideOffers.gives({ type: 'NestClaimed', nest: nestF, person: ben, birds: [f3, f4] })
  })

  it('numbers each claim anew', () => {
    const used = mineOnce.and(claimed({ ...ten, nest: nestE, no: 17, by: ben, birds: birdsE }))
    const [event] = used.when(claimF, { by: ana, at: '09:11' }).events
    expect(event?.type === 'NestClaimed' && event.claimNo).toBeGreaterThan(17)
  })
})

/** 2 min + (2 × (30 s + birds × 90 s), no less than 4 min and no more than 15). */
const leases: readonly { birds: number; until: Clock; openedUntil: Clock }[] = [
  { birds: 1, until: '09:16', openedUntil: '09:15' },
  { birds: 2, until: '09:19', openedUntil: '09:18' },
  { birds: 3, until: '09:22', openedUntil: '09:21' },
  { birds: 4, until: '09:25', openedUntil: '09:24' },
  { birds: 5, until: '09:27', openedUntil: '09:26' },
  { birds: 12, until: '09:27', openedUntil: '09:26' },
]

describe.each(leases)('the lease of a nest of $birds', ({ birds, until, openedUntil }) => {
  const brood = Array.from({ length: birds }, (_, at) => ({
    id: `b${100 + at}` as typeof f1,
    plan: halfHourly,
  }))
  const big = room.and(nest(nestOf(9), { label: 'B', incubator: inc1, birds: brood }))
  const claim = big.when({ type: 'ClaimNest', nest: nestOf(9) }, { by: ana, at: '09:10' })

  it(`runs to ${until} when claimed at 09:10`, () => {
    claim.besideOffers.gives({ type: 'NestClaimed', nest: nestOf(9), leaseEndsAtMs: clock(until) })
  })

  it(`runs to ${openedUntil} when the nest is opened at 09:11`, () => {
    const hands = claim.room.board.nests[nestOf(9)]?.hands
    const claimNo = hands?.type === 'held' ? hands.claimNo : 0
    claim.room
      .when({ type: 'StartFeed', nest: nestOf(9), claimNo }, { by: ana, at: '09:11' })
      .gives({
        type: 'FeedStarted',
        nest: nestOf(9),
        claimNo,
        startedAtMs: clock('09:11'),
        leaseEndsAtMs: clock(openedUntil),
      })
  })
})

describe('more time', () => {
  const moreTime = { type: 'MoreTime', nest: nestF, claimNo: 10 } as const

  it('adds five minutes to the lease', () => {
    room
      .and(...opened({ ...ten, by: ana, until: '09:24' }))
      .when(moreTime, { by: ana, at: '09:20' })
      .gives({ type: 'LeaseExtended', nest: nestF, claimNo: 10, leaseEndsAtMs: clock('09:29') })
  })

  it('reaches no further than half an hour from the start, and then says how long there is', () => {
    const long = room
      .and(...opened({ ...ten, by: ana, until: '09:37' }))
      .when(moreTime, { by: ana, at: '09:20' })
      .gives({ type: 'LeaseExtended', nest: nestF, claimNo: 10, leaseEndsAtMs: clock('09:40') })
    long
      .when(moreTime, { by: ana, at: '09:21' })
      .refuses({ code: 'LongEnough', leaseEndsAtMs: clock('09:40') })
  })

  it('counts the half hour from the start, which the tap makes true', () => {
    const tapped = opened({ ...ten, by: ana, at: '09:14', until: '09:42' }).slice(1)
    room
      .and(claimed({ ...ten, by: ana }), ...tapped)
      .when(moreTime, { by: ana, at: '09:40' })
      .gives({ type: 'LeaseExtended', nest: nestF, claimNo: 10, leaseEndsAtMs: clock('09:44') })
  })

  it('is not for somebody else’s claim', () => {
    others.when(moreTime, { by: ana, at: '09:11' }).refuses({ code: 'NotYours' })
  })
})
