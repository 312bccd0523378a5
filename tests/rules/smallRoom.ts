// The one small room the rule tests start from. Seven invented people, all on shift from 06:30, and
// six nests; F, E and G were last fed at 08:40 and so are due at 09:10, and may be fed from 09:07.
//
//   F  n1  incubator 1  four birds, every 30 min by syringe, a tenth early      visit 1 at 08:40
//   E  n2  incubator 1  two birds, the same plan                                visit 2 at 08:40
//   G  n3  incubator 2  one bird, the same plan                                 visit 3 at 08:40
//   D  n4  incubator 2  two birds by crop tube every two hours, never early     visit 4 at 07:30
//   M  n5  incubator 2  one bird by syringe every 20 min, one by crop tube      visit 5 at 08:40
//   S  n6  incubator 1  two birds still warming since 08:30, on no plan

import type { RoomEvent } from '../../shared/board/events.ts'
import { given } from '../support/given.ts'
import { mentoredBy } from '../support/peopleBuilder.ts'
import {
  birdOf,
  founded,
  type Hours,
  incubator,
  incubatorOf,
  nest,
  nestOf,
  onShift,
  person,
  personOf,
  planAt,
  planEvery,
  planOf,
  round,
} from '../support/roomBuilder.ts'

export const hours: Hours = { opens: '07:00', closes: '21:00' }

export const ana = personOf(1)
export const ben = personOf(2)
/** The only one signed off for the crop tube and for fluids. */
export const iris = personOf(3)
/** Tom's mentor. */
export const lena = personOf(4)
export const pia = personOf(5)
export const vic = personOf(6)
export const tom = personOf(7)
export const everyone = [ana, ben, iris, lena, pia, vic, tom] as const

export const nestF = nestOf(1)
export const nestE = nestOf(2)
export const nestG = nestOf(3)
export const nestD = nestOf(4)
export const nestM = nestOf(5)
export const nestS = nestOf(6)

export const [f1, f2, f3, f4] = [birdOf(1), birdOf(2), birdOf(3), birdOf(4)] as const
export const birdsF = [f1, f2, f3, f4] as const
export const birdsE = [birdOf(5), birdOf(6)] as const
export const g1 = birdOf(7)
export const birdsD = [birdOf(8), birdOf(9)] as const
export const mSyringe = birdOf(10)
export const mTube = birdOf(11)
export const birdsS = [birdOf(12), birdOf(13)] as const

export const [inc1, inc2] = [incubatorOf(1), incubatorOf(2)] as const
export const halfHourly = planOf(1)
export const twentyMinutely = planOf(2)
export const twoHourlyTube = planOf(3)
export const atEightNoonFour = planOf(4)

const syringe = { technique: 'gapeSyringe', earlyPercent: 10 } as const
const tube = { technique: 'cropTube', earlyPercent: 0 } as const

const people: readonly RoomEvent[] = [
  person(ana, 'volunteer'),
  person(ben, 'volunteer'),
  person(iris, 'volunteer', ['gapeSyringe', 'cropTube', 'fluids']),
  person(lena, 'lead', ['gapeSyringe', 'mentor']),
  person(pia, 'permitHolder'),
  person(vic, 'vet'),
  person(tom, 'trainee'),
  mentoredBy(tom, lena),
]

const on = <P>(birds: readonly (typeof f1)[], plan: P) => birds.map((id) => ({ id, plan }))

const nests: readonly RoomEvent[] = [
  nest(nestF, { label: 'F', incubator: inc1, birds: on(birdsF, halfHourly) }),
  nest(nestE, { label: 'E', incubator: inc1, birds: on(birdsE, halfHourly) }),
  nest(nestG, { label: 'G', incubator: inc2, birds: on([g1], halfHourly) }),
  nest(nestD, { label: 'D', incubator: inc2, birds: on(birdsD, twoHourlyTube) }),
  nest(nestM, {
    label: 'M',
    incubator: inc2,
    birds: [...on([mSyringe], twentyMinutely), ...on([mTube], twoHourlyTube)],
  }),
  nest(nestS, {
    label: 'S',
    incubator: inc1,
    birds: on(birdsS, null),
    at: '08:30',
    lookDue: '08:50',
  }),
]

export const plans: readonly RoomEvent[] = [
  planEvery(halfHourly, 30, syringe),
  planEvery(twentyMinutely, 20, syringe),
  planEvery(twoHourlyTube, 120, tube),
  planAt(atEightNoonFour, ['08:00', '12:00', '16:00'], tube),
]

/** The room before anybody has fed anything. */
export const unfedRoom: readonly RoomEvent[] = [
  ...founded(hours),
  incubator(inc1, '1'),
  incubator(inc2, '2'),
  ...plans,
  ...people,
  ...everyone.map((id) => onShift(id)),
  ...nests,
]

const twoHoursMs = 7_200_000

export const firstRounds: readonly RoomEvent[] = [
  round({ nest: nestF, no: 1, by: iris, birds: birdsF, at: '08:40' }),
  round({ nest: nestE, no: 2, by: iris, birds: birdsE, at: '08:40' }),
  round({ nest: nestG, no: 3, by: iris, birds: [g1], at: '08:40' }),
  round({ nest: nestD, no: 4, by: iris, birds: birdsD, at: '07:30', intervalMs: twoHoursMs }),
  round({ nest: nestM, no: 5, by: iris, birds: [mSyringe, mTube], at: '08:40' }),
]

/** The room at about nine in the morning. */
export const room = given(...unfedRoom, ...firstRounds)
