// The rows of the table that the clock alone brings: a lease that ends, a doubt that grows old, closing
// and opening, and a server that starts again. Each is checked at its instant and just before it.

import { describe, expect, it } from 'vitest'
import { secondMs } from '../../shared/base/values.ts'
import { openingEvents } from '../../shared/rules/founding.ts'
import { nextWakeAtMs } from '../../shared/rules/time.ts'
import type { Given } from '../support/given.ts'
import {
  type Clock,
  claimed,
  clock,
  dayOf,
  doubt,
  offShift,
  opened,
  round,
  serverStarted,
} from '../support/roomBuilder.ts'
import { checkTimeCell, type TimeCell } from './cell.ts'
import {
  ana,
  ben,
  birdsF,
  everyone,
  f1,
  f2,
  f3,
  f4,
  g1,
  hours,
  mSyringe,
  nestF,
  nestG,
  nestM,
  pia,
  room,
} from './smallRoom.ts'

const ten = { nest: nestF, no: 10, by: ana, birds: birdsF, at: '09:10', until: '09:24' } as const
const nine = { nest: nestF, no: 9, owner: ana, birds: birdsF } as const
const openTen = room.and(...opened(ten))
const restarted = openTen.and(serverStarted('09:30'))
const doubted = (about: Clock, raised: Clock) => room.and(doubt({ ...nine, about, raised }))

const lapsedTen = { type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'lapsed' } as const
const silent = {
  type: 'DoubtRaised',
  nest: nestF,
  no: 10,
  kind: 'silent',
  owner: ana,
  aboutAtMs: clock('09:10'),
  birds: birdsF,
} as const
const neverAnswered = { type: 'DoubtEnded', nest: nestF, no: 9, how: 'neverAnswered' } as const
const closing = { type: 'DayClosed' } as const
const tomorrow = { type: 'DayOpened', day: dayOf(hours, 1) } as const

const cells: readonly TimeCell[] = [
  { row: 'a lease about to end', given: openTen, at: ['09:23:59'], gives: [] },
  { row: 'a lease ends', given: openTen, at: ['09:24'], gives: [lapsedTen, silent] },
  {
    row: 'a lease ends, the nest never opened',
    given: room.and(claimed(ten)),
    at: ['09:24'],
    gives: [lapsedTen, silent],
  },
  {
    row: 'a lease ends, some birds answered',
    given: openTen.and(round({ ...ten, birds: [f1, f3] })),
    at: ['09:24'],
    gives: [lapsedTen, { ...silent, birds: [f2, f4] }],
  },
  {
    row: 'a lease that ended while the server was gone, 59 s after its start',
    given: restarted,
    at: ['09:30:59'],
    gives: [],
  },
  {
    row: 'a lease that ended while the server was gone, 60 s after its start',
    given: restarted,
    at: ['09:31'],
    gives: [lapsedTen, silent],
  },
  {
    row: 'a lease that ends later than 60 s after the start of the server',
    given: openTen.and(serverStarted('09:20')),
    at: ['09:23:59'],
    gives: [],
  },
  {
    row: 'a doubt almost as old as two intervals',
    given: doubted('09:10', '09:24'),
    at: ['10:23:59'],
    gives: [],
  },
  {
    row: 'a doubt older than two intervals',
    given: doubted('09:10', '09:24'),
    at: ['10:24:01'],
    gives: [neverAnswered],
  },
  {
    row: 'closing, a nest in hands',
    given: room.and(claimed({ ...ten, until: '21:20' })),
    at: ['21:00'],
    gives: [closing],
  },
  {
    row: 'a lease ends after closing',
    given: room.and(...opened({ ...ten, at: '20:55', until: '21:09' })),
    at: ['21:09'],
    gives: [closing, lapsedTen, { ...silent, aboutAtMs: clock('20:55') }],
  },
  {
    row: 'a doubt of 20:40 that is two intervals old at 07:39 of feeding hours',
    given: doubted('20:26', '20:40'),
    at: ['07:39', 1],
    gives: [closing, tomorrow],
  },
  {
    row: 'a doubt of 20:40 that is older than two intervals of feeding hours',
    given: doubted('20:26', '20:40'),
    at: ['07:40:01', 1],
    gives: [closing, tomorrow, neverAnswered],
  },
]

/** The board at this time, where nobody is on shift to be asked for anything. */
const quietAt = (past: Given, at: Clock) =>
  past.and(...everyone.map((id) => offShift(id, '09:00'))).whenClock(at).room.board

describe('the table of time', () => {
  it.each(cells)('$row', (cell) => {
    checkTimeCell(cell)
  })

  it('keeps the history of a doubt nobody answered: the rounds and feeds are as before', () => {
    const before = doubted('09:10', '09:24')
    const { board } = before.whenClock('10:30').room
    expect(board.nests[nestF]?.rounds).toEqual(before.board.nests[nestF]?.rounds)
    expect(board.nests[nestF]?.doubts).toEqual([])
  })

  it('ends no doubt before two of its own birds’ intervals: twenty minutes each', () => {
    const short = { nest: nestM, no: 9, owner: ana, birds: [mSyringe] } as const
    const past = room.and(doubt({ ...short, about: '09:00', raised: '09:10' }))
    past.whenClock('09:49:59').besideOffers.gives()
    past.whenClock('09:50:01').besideOffers.gives({ ...neverAnswered, nest: nestM })
  })

  it('asks to be woken no later than the end of a lease', () => {
    expect(nextWakeAtMs(quietAt(openTen, '09:23:59'))).toBe(clock('09:24'))
    expect(nextWakeAtMs(quietAt(restarted, '09:30:59'))).toBe(clock('09:31'))
  })

  it('asks to be woken at the opening of the next day when nothing else waits', () => {
    expect(nextWakeAtMs(quietAt(room, '21:00'))).toBe(clock('07:00', 1))
  })
})

describe('a server start', () => {
  it('opens the room and ends nothing at its first turn', () => {
    const events = openingEvents(openTen.board, clock('09:40'))
    expect(events).toMatchObject([{ type: 'RoomOpened', atMs: clock('09:40') }])
    openTen
      .and(...events)
      .whenClock('09:40')
      .besideOffers.gives()
  })

  it('gives the owner of a doubt a new minute before anybody else is asked', () => {
    const back = doubted('09:10', '09:24').and(serverStarted('09:30'))
    expect(back.board.room.openedAtMs).toBe(clock('09:30'))
  })

  it('lets a lease of before the outage be answered within its minute', () => {
    const answers = birdsF.map((bird) => ({ bird, outcome: 'ate' }) as const)
    restarted
      .when(
        { type: 'AnswerBirds', nest: nestF, claimNo: 10, answers },
        { by: ana, at: '09:30:50', startedAt: '09:10', agoMs: 900 * secondMs },
      )
      .gives(
        { type: 'RoundRecorded', nest: nestF, no: 10, standing: 'current' },
        { type: 'ClaimEnded', nest: nestF, claimNo: 10, how: 'fed' },
      )
  })
})

describe('a person removed while a nest is in their hands', () => {
  const after = openTen.when({ type: 'RemovePerson', person: ana }, { by: pia, at: '09:15' })

  it('lets go of it as if it had lapsed, and the lead is asked', () => {
    after.includes({ type: 'PersonRemoved', v: 1, person: ana })
    const { board } = after.room.whenClock('09:15').room
    expect(board.nests[nestF]?.hands).toEqual({ type: 'free' })
    expect(board.nests[nestF]?.doubts).toMatchObject([
      { kind: 'silent', owner: null, aboutAtMs: clock('09:10'), birds: birdsF },
    ])
  })

  it('leaves every doubt they were asked about to the lead', () => {
    const { board } = doubted('09:10', '09:14').when(
      { type: 'RemovePerson', person: ana },
      { by: pia, at: '09:15' },
    ).room
    expect(board.nests[nestF]?.doubts).toMatchObject([{ no: 9, owner: null }])
  })

  it('leaves everybody else’s hands alone', () => {
    const both = openTen.and(claimed({ nest: nestG, no: 11, by: ben, birds: [g1], at: '09:12' }))
    const { board } = both.when(
      { type: 'RemovePerson', person: ana },
      { by: pia, at: '09:15' },
    ).room
    expect(board.nests[nestG]?.hands).toMatchObject({ person: ben })
  })
})

describe('a sign-off that ends in mid-round', () => {
  const unsigned = openTen.when(
    { type: 'SetSignOffs', person: ana, signOffs: [] },
    { by: pia, at: '09:15' },
  )

  it('lets the claim go on', () => {
    const { board } = unsigned.gives(
      { type: 'SignOffsSet', person: ana, signOffs: [] },
      { type: 'LeadTold', why: 'signOffGone', nest: nestF, person: ana },
    )
    expect(board.nests[nestF]?.hands).toMatchObject({ person: ana, birds: birdsF })
  })

  it('marks what is recorded after it', () => {
    const answers = birdsF.map((bird) => ({ bird, outcome: 'ate' }) as const)
    const { events } = unsigned.room.when(
      { type: 'AnswerBirds', nest: nestF, claimNo: 10, answers },
      { by: ana, at: '09:16', startedAt: '09:10' },
    )
    const recorded = events.find((event) => event.type === 'RoundRecorded')
    expect(recorded?.type === 'RoundRecorded' && recorded.marks).toContain('notSignedOff')
  })
})
