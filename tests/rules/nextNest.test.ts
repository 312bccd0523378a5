// Which nest a free person is shown next: the first one due whose window is open, the incubator they
// stand at where two are due together; never one that is held, warming, claimed, beyond their
// sign-offs, or in a doubt they are asked about or that is too young for anybody else.

import { describe, expect, it } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { nextNest } from '../../shared/plan/nextNest.ts'
import { type Given, given } from '../support/given.ts'
import {
  birdOf,
  type Clock,
  claimed,
  clock,
  dayOpened,
  doubt,
  founded,
  held,
  incubator,
  nest,
  nestOf,
  onShift,
  person,
  planEvery,
  planOf,
  round,
  serverStarted,
} from '../support/roomBuilder.ts'
import { ana, ben, hours, inc1, inc2, iris, lena } from './smallRoom.ts'

const syringeMeals = planOf(1)
const tubeMeals = planOf(2)
const [nestA, nestB, nestC, nestT] = [nestOf(1), nestOf(2), nestOf(3), nestOf(4)] as const
const [a1, b1, c1, t1, t2] = [birdOf(1), birdOf(2), birdOf(3), birdOf(4), birdOf(5)] as const

const fed = (
  where: typeof nestA,
  birds: readonly (typeof a1)[],
  at: Clock,
  by: PersonId = iris,
): RoomEvent => round({ nest: where, no: 10 + Number(birds[0]?.slice(1)), by, birds, at })

/** A and B at incubator 1, C at 2, one bird each on 30 min; T at 2, one tubed bird every 60 min. */
const base: readonly RoomEvent[] = [
  ...founded(hours),
  incubator(inc1, '1'),
  incubator(inc2, '2'),
  planEvery(syringeMeals, 30, { technique: 'gapeSyringe', earlyPercent: 10 }),
  planEvery(tubeMeals, 60, { technique: 'cropTube', earlyPercent: 0 }),
  person(ana, 'volunteer'),
  person(ben, 'volunteer'),
  person(iris, 'volunteer', ['gapeSyringe', 'cropTube']),
  person(lena, 'lead'),
  ...[ana, ben, iris, lena].map((id) => onShift(id)),
  nest(nestA, { label: 'A', incubator: inc1, birds: [{ id: a1, plan: syringeMeals }] }),
  nest(nestB, { label: 'B', incubator: inc1, birds: [{ id: b1, plan: syringeMeals }] }),
  nest(nestC, { label: 'C', incubator: inc2, birds: [{ id: c1, plan: syringeMeals }] }),
  nest(nestT, { label: 'T', incubator: inc2, birds: [{ id: t1, plan: tubeMeals }] }),
]

/** Due: A at 09:10, B at 09:14, C at 09:18, T at 09:20. */
const room = given(
  ...base,
  fed(nestA, [a1], '08:40'),
  fed(nestB, [b1], '08:44'),
  fed(nestC, [c1], '08:48'),
  fed(nestT, [t1], '08:20'),
)

const nextAt = (in_: Given, at: Clock, who = ana) => nextNest(in_.board, who, clock(at))
const nestAt = (in_: Given, at: Clock, who = ana) => nextAt(in_, at, who)?.nest ?? null

describe('the next nest', () => {
  it('is the one due first, with its due time and its ready birds', () => {
    expect(nextAt(room, '09:30')).toMatchObject({
      nest: nestA,
      dueAtMs: clock('09:10'),
      birds: [a1],
    })
  })

  it('is none before the first window opens, and the first from then', () => {
    expect(nestAt(room, '09:06:59')).toBeNull()
    expect(nestAt(room, '09:07')).toBe(nestA)
  })

  it('is the one in somebody else’s hands for nobody', () => {
    const taken = room.and(claimed({ nest: nestA, no: 30, by: ben, birds: [a1], at: '09:08' }))
    expect(nestAt(taken, '09:30')).toBe(nestB)
  })

  it('is never one that is held, or whose birds all are', () => {
    const hold = { by: lena, at: '09:00', lookAgain: '10:00' } as const
    expect(nestAt(room.and(held({ nest: nestA }, hold)), '09:30')).toBe(nestB)
    expect(nestAt(room.and(held({ nest: nestA, bird: a1 }, hold)), '09:30')).toBe(nestB)
  })

  it('is never an arrival still warming', () => {
    const arrival = nest(nestOf(9), {
      label: 'S',
      incubator: inc1,
      birds: [{ id: birdOf(9), plan: null }],
      at: '08:00',
      lookDue: '08:20',
    })
    expect(nestAt(given(...base.slice(0, -4), arrival), '12:00')).toBeNull()
  })

  it('is never one whose technique this person is not signed off for', () => {
    const onlyTube = room.and(
      fed(nestA, [a1], '09:20'),
      fed(nestB, [b1], '09:20'),
      fed(nestC, [c1], '09:20'),
    )
    expect(nestAt(onlyTube, '09:30', ana)).toBeNull()
    expect(nestAt(onlyTube, '09:30', iris)).toBe(nestT)
  })

  it('carries for each person only the birds they may feed', () => {
    const mixed = room.and(
      nest(nestOf(8), {
        label: 'M',
        incubator: inc1,
        birds: [
          { id: birdOf(8), plan: syringeMeals },
          { id: t2, plan: tubeMeals },
        ],
      }),
    )
    expect(nextAt(mixed, '09:00', ana)).toMatchObject({ nest: nestOf(8), birds: [birdOf(8)] })
    expect(nextAt(mixed, '09:00', iris)).toMatchObject({ nest: nestOf(8), birds: [birdOf(8), t2] })
  })

  it('is not ranked for a bird that was looked at and not fed, until half its interval is over', () => {
    const asleep = given(...base.slice(0, -3), fed(nestA, [a1], '08:30')).and(
      round({ nest: nestA, no: 20, by: ben, birds: [a1], at: '09:00', outcome: 'notFed' }),
    )
    expect(nestAt(asleep, '09:14:59')).toBeNull()
    expect(nestAt(asleep, '09:15')).toBe(nestA)
  })

  it('is none while the room is closed, however long a bird has waited', () => {
    expect(nestAt(room, '20:59')).toBe(nestA)
    expect(nestAt(room, '21:00')).toBeNull()
    expect(nestAt(room, '23:30')).toBeNull()
    const nextDay = room.and(dayOpened(hours, 1))
    expect(nextNest(nextDay.board, ana, clock('07:00', 1))?.dueAtMs).toBe(clock('07:00', 1))
  })
})

describe('two nests due together', () => {
  const together = given(...base.slice(0, -1), fed(nestB, [b1], '08:40'), fed(nestC, [c1], '08:40'))

  it('go to the one at the incubator this person fed at last', () => {
    const afterA = together.and(fed(nestA, [a1], '08:55', ana))
    expect(nestAt(afterA, '09:12')).toBe(nestB)
    const atC = nest(nestOf(8), {
      label: 'Z',
      incubator: inc2,
      birds: [{ id: birdOf(8), plan: syringeMeals }],
    })
    const afterZ = together.and(
      fed(nestA, [a1], '08:50'),
      atC,
      fed(nestOf(8), [birdOf(8)], '08:55', ana),
    )
    expect(nestAt(afterZ, '09:12')).toBe(nestC)
  })

  it('go by where this person fed last, not by where they fed before', () => {
    const away = nest(nestOf(8), {
      label: 'Z',
      incubator: inc2,
      birds: [{ id: birdOf(8), plan: syringeMeals }],
    })
    const atBoth = (a: Clock, z: Clock) =>
      together.and(away, fed(nestA, [a1], a, ana), fed(nestOf(8), [birdOf(8)], z, ana))
    expect(nestAt(atBoth('08:50', '08:55'), '09:12')).toBe(nestC)
    expect(nestAt(atBoth('08:55', '08:50'), '09:12')).toBe(nestB)
  })

  it('go by label where neither is at that incubator', () => {
    expect(nestAt(together.and(fed(nestA, [a1], '08:55')), '09:12')).toBe(nestB)
  })

  it('never put a nest before one that is due minutes earlier', () => {
    const apart = given(
      ...base.slice(0, -1),
      fed(nestA, [a1], '08:55', ana),
      fed(nestB, [b1], '08:44'),
      fed(nestC, [c1], '08:40'),
    )
    expect(nestAt(apart, '09:20')).toBe(nestC)
  })
})

describe('a nest in doubt', () => {
  const anas = { nest: nestA, no: 30, owner: ana, birds: [a1] } as const
  const silent = room.and(doubt({ ...anas, about: '09:10', raised: '09:20' }))

  it('is shown to nobody else until the doubt is sixty seconds old', () => {
    expect(nestAt(silent, '09:20:59', ben)).toBe(nestB)
    expect(nestAt(silent, '09:21', ben)).toBe(nestA)
  })

  it('is never shown to its owner, who is asked instead', () => {
    expect(nestAt(silent, '09:40', ana)).toBe(nestB)
  })

  it('counts its sixty seconds from the start of the server', () => {
    const back = silent.and(serverStarted('09:25'))
    expect(nestAt(back, '09:25:59', ben)).toBe(nestB)
    expect(nestAt(back, '09:26', ben)).toBe(nestA)
  })

  it('is not shown for a second, younger doubt', () => {
    const two = silent.and(doubt({ ...anas, no: 31, owner: iris, about: '09:22', raised: '09:30' }))
    expect(nestAt(two, '09:30:59', ben)).toBe(nestB)
    expect(nestAt(two, '09:31', ben)).toBe(nestA)
  })

  it('that is asked of the lead alone is shown to a feeder after a minute', () => {
    const unowned = room.and(doubt({ ...anas, owner: null, about: '09:10', raised: '09:20' }))
    expect(nestAt(unowned, '09:21', ana)).toBe(nestA)
  })
})
