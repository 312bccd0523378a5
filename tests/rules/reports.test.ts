// Reports say what somebody did or saw and are never refused: every report, by every role, on shift,
// off shift and removed. A missing right is a mark; what cannot be applied is set aside whole and puts
// a doubt on its nest; a late start stays between what the device had heard and now.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import { commandSchema, type ReportType } from '../../shared/board/commands.ts'
import { type Role, roles } from '../../shared/board/constants.ts'
import type { EventOf } from '../../shared/board/events.ts'
import { timesOf } from '../../shared/rules/context.ts'
import type { Order, Turn } from '../support/given.ts'
import {
  birdOf,
  clock,
  held,
  incubatorOf,
  nest,
  nestOf,
  onShift,
  person,
  personOf,
  removed,
} from '../support/roomBuilder.ts'
import {
  ana,
  birdsD,
  birdsS,
  f1,
  halfHourly,
  inc1,
  lena,
  nestD,
  nestF,
  nestS,
  room,
  tom,
  vic,
} from './smallRoom.ts'

const somebody = personOf(20)
const say = { by: somebody, at: '09:15', startedAt: '09:10' } as const

const reports: Readonly<Record<ReportType, Order>> = {
  StartFeed: { type: 'StartFeed', nest: nestF },
  AnswerBirds: { type: 'AnswerBirds', nest: nestF, answers: [{ bird: f1, outcome: 'ate' }] },
  CalledAway: { type: 'CalledAway', nest: nestF, claimNo: 9 },
  SayWhatHappened: { type: 'SayWhatHappened', nest: nestF, claimNo: 9, said: { type: 'none' } },
  Looked: { type: 'Looked', nest: nestF, looks: [{ bird: f1, crop: 'full' }] },
  TakeBackFeed: { type: 'TakeBackFeed', nest: nestF, claimNo: 1, wasFed: 'no' },
  CorrectFeed: {
    type: 'CorrectFeed',
    nest: nestF,
    claimNo: 1,
    answers: [{ bird: f1, outcome: 'some' }],
    reason: 'tapped wrong',
  },
  CallHelp: { type: 'CallHelp', nest: nestF },
  BirdFound: { type: 'BirdFound', nest: nestF },
  HoldBird: { type: 'HoldBird', bird: f1, reason: 'limping', lookAgainAtMs: clock('10:00') },
  BoxArrived: { type: 'BoxArrived', label: 'Q', incubator: inc1, howMany: 3, size: 'unknown' },
  BirdSeen: { type: 'BirdSeen', bird: f1, signs: ['sneezing'], droppings: 'seen' },
  Weighed: { type: 'Weighed', bird: f1, massMg: 12_400 },
  IncubatorRead: { type: 'IncubatorRead', incubator: inc1, tempDeciC: 352 },
  FluidsGiven: {
    type: 'FluidsGiven',
    bird: f1,
    fluid: 'warm saline',
    route: 'byMouth',
    given: { unit: 'uL', n: 300 },
    isWarmed: true,
  },
}
const types = Object.keys(reports) as ReportType[]
const walks = types.flatMap((type) =>
  roles.flatMap((role) => (['on', 'off'] as const).map((shift) => ({ type, role, shift }))),
)

const withSomebody = (role: Role, shift: 'on' | 'off') =>
  room.and(person(somebody, role, []), ...(shift === 'on' ? [onShift(somebody, '07:00')] : []))

const recorded = (turn: Turn): EventOf<'RoundRecorded'> | undefined =>
  turn.events.find((event) => event.type === 'RoundRecorded')
const marksOf = (turn: Turn) => recorded(turn)?.marks

describe('a report', () => {
  it.each(types)('%s is one a screen may send', (type) => {
    expect(() => commandSchema.parse({ v: 1, ...reports[type] })).not.toThrow()
  })

  it.each(walks)('$type by a $role $shift shift is never refused', ({ type, role, shift }) => {
    expect(withSomebody(role, shift).when(reports[type], say).reason).toBeNull()
  })

  it.each(types)('%s by somebody removed is set aside, not refused', (type) => {
    const turn = withSomebody('volunteer', 'on').and(removed(somebody)).when(reports[type], say)
    turn.includes({ type: 'ReportSetAside' } as never).leavesOut('RoundRecorded', 'HoldSet')
  })

  it.each(['StartFeed', 'AnswerBirds', 'TakeBackFeed', 'CorrectFeed'] as const)(
    '%s by somebody removed puts a doubt on its nest',
    (type) => {
      const { board } = withSomebody('volunteer', 'on')
        .and(removed(somebody))
        .when(reports[type], say).room
      expect(board.nests[nestF]?.doubts).toMatchObject([{ kind: 'setAside' }])
    },
  )

  it('however old is recorded', () => {
    const turn = room.when(reports.AnswerBirds, { by: ana, at: '09:15', agoMs: 40_000_000 })
    turn.includes({ type: 'RoundRecorded', nest: nestF } as never)
  })
})

describe('the marks of a record', () => {
  const answer = (birds: readonly (typeof f1)[], nestId = nestF): Order => ({
    type: 'AnswerBirds',
    nest: nestId,
    answers: birds.map((bird) => ({ bird, outcome: 'ate' })),
  })

  it('are none for somebody on shift and signed off', () => {
    expect(marksOf(room.when(answer([f1]), { ...say, by: ana }))).toEqual([])
  })

  it('say that nobody knew this person to be here', () => {
    const gone = room.and({ type: 'ShiftEnded', v: 1, person: ana, atMs: clock('09:00') })
    expect(marksOf(gone.when(answer([f1]), { ...say, by: ana }))).toEqual(['notOnShift'])
  })

  it('say that a technique is not signed off for', () => {
    expect(marksOf(room.when(answer(birdsD, nestD), { ...say, by: ana }))).toEqual(['notSignedOff'])
  })

  it('say that a bird was held or still warming', () => {
    const holding = room.and(
      held({ nest: nestF, bird: f1 }, { by: lena, at: '09:00', lookAgain: '10:00' }),
    )
    expect(marksOf(holding.when(answer([f1]), { ...say, by: ana }))).toEqual(['heldBird'])
    expect(marksOf(room.when(answer([birdsS[0]], nestS), { ...say, by: ana }))).toContain(
      'settlingBird',
    )
  })
})

const unknown: readonly { what: string; order: Order; why: EventOf<'ReportSetAside'>['why'] }[] = [
  {
    what: 'a feed of an unknown bird',
    order: { ...reports.AnswerBirds, answers: [{ bird: birdOf(999), outcome: 'ate' }] } as Order,
    why: 'birdUnknown',
  },
  {
    what: 'a feed of unknown birds in an unknown nest',
    order: {
      type: 'AnswerBirds',
      nest: nestOf(99),
      answers: [{ bird: birdOf(999), outcome: 'ate' }],
    },
    why: 'birdUnknown',
  },
  {
    what: 'a start at an unknown nest',
    order: { type: 'StartFeed', nest: nestOf(99) },
    why: 'nestUnknown',
  },
  {
    what: 'a hold on an unknown bird',
    order: { ...reports.HoldBird, bird: birdOf(999) } as Order,
    why: 'birdUnknown',
  },
  {
    what: 'a weight of an unknown bird',
    order: { ...reports.Weighed, bird: birdOf(999) } as Order,
    why: 'birdUnknown',
  },
  {
    what: 'a reading of an unknown incubator',
    order: { ...reports.IncubatorRead, incubator: incubatorOf(29) } as Order,
    why: 'incubatorUnknown',
  },
  {
    what: 'a take-back of a visit nobody knows',
    order: { type: 'TakeBackFeed', nest: nestF, claimNo: 77, wasFed: 'no' },
    why: 'roundUnknown',
  },
]

describe('what cannot be applied', () => {
  it.each(unknown)('$what is set aside with its whole body', ({ order, why }) => {
    const { events, board } = room.when(order, { by: ana, at: '09:15' })
    const kept = events.find((event) => event.type === 'ReportSetAside')
    expect(kept).toMatchObject({ type: 'ReportSetAside', by: ana, why })
    expect(kept?.type === 'ReportSetAside' && kept.body).toMatchObject(order)
    expect(board.setAside).toHaveLength(1)
  })

  it.each([unknown[0], unknown[6]])('$what puts a doubt on its nest', (row) => {
    const { board } = room.when(row?.order ?? reports.Weighed, { by: ana, at: '09:15' })
    expect(board.nests[nestF]?.doubts).toMatchObject([{ kind: 'setAside' }])
  })
})

describe('the list of what was set aside', () => {
  it('keeps the latest twenty', () => {
    const weighed = { ...reports.Weighed, bird: birdOf(999) } as Order
    let crowded = room
    for (let told = 0; told < 25; told += 1) {
      crowded = crowded.when(weighed, { by: told < 5 ? tom : ana, at: '09:15' }).room
    }
    expect(crowded.board.setAside.map(({ by }) => by)).toEqual(Array(20).fill(ana))
  })
})

describe('a box that arrives', () => {
  const many = Array.from({ length: 114 }, (_, at) =>
    nest(nestOf(100 + at), {
      label: `Z${at}`,
      incubator: inc1,
      birds: [{ id: birdOf(200 + at), plan: halfHourly }],
    }),
  )

  it('is never refused, though the board has no room for another nest', () => {
    const full = room.and(...many)
    expect(Object.keys(full.board.nests)).toHaveLength(120)
    expect(full.when(reports.BoxArrived, { by: ana, at: '09:15' }).reason).toBeNull()
  })

  it('is never refused for a label that is taken or an incubator nobody knows', () => {
    const twice = { ...reports.BoxArrived, label: 'F' } as Order
    const nowhere = { ...reports.BoxArrived, incubator: incubatorOf(29) } as Order
    expect(room.when(twice, { by: tom, at: '09:15' }).reason).toBeNull()
    expect(room.when(nowhere, { by: vic, at: '09:15' }).reason).toBeNull()
  })
})

describe('a time somebody says from memory', () => {
  const saidAt = (saidAtMs: number): Order => ({ ...reports.AnswerBirds, saidAtMs }) as Order
  const start = (saidAtMs: number) =>
    recorded(room.when(saidAt(saidAtMs), { by: ana, at: '09:15' }))

  it('is the start of the round, which is marked said', () => {
    expect(start(clock('09:02'))).toMatchObject({ startedAtMs: clock('09:02'), isSaid: true })
  })

  it('lies no earlier than the admission of the bird', () => {
    expect(start(clock('05:30'))).toMatchObject({ startedAtMs: clock('06:00'), isSaid: true })
  })

  it('lies no later than its arrival', () => {
    expect(start(clock('09:40'))).toMatchObject({ startedAtMs: clock('09:15'), isSaid: true })
  })
})

describe('the start of a late report', () => {
  const nowMs = clock('09:30')
  const timing = { notedAgoMs: 5 * minuteMs, heardAtMs: clock('09:00') }

  it('is its arrival less what passed on the device', () => {
    expect(timesOf({ ...timing, startedAgoMs: 12 * minuteMs }, nowMs, 1)).toMatchObject({
      startedAtMs: clock('09:18'),
      notedAtMs: clock('09:25'),
      isBounded: false,
    })
  })

  it('is not before the last the device had heard, and says that it was moved', () => {
    expect(timesOf({ ...timing, startedAgoMs: 45 * minuteMs }, nowMs, 1)).toMatchObject({
      startedAtMs: clock('09:00'),
      isBounded: true,
    })
  })

  it('is not after its arrival though the device says it heard the room’s future', () => {
    const times = timesOf({ ...timing, heardAtMs: clock('11:00'), startedAgoMs: 0 }, nowMs, 1)
    expect(times.startedAtMs).toBeLessThanOrEqual(nowMs)
    expect(times.notedAtMs).toBeLessThanOrEqual(nowMs)
  })

  it('runs with the room’s clock where a demo runs it faster', () => {
    expect(
      timesOf({ ...timing, notedAgoMs: minuteMs, startedAgoMs: 2 * minuteMs }, nowMs, 10),
    ).toMatchObject({
      startedAtMs: clock('09:10'),
      notedAtMs: clock('09:20'),
    })
  })
})
