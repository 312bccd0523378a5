// The room every simulated day begins with: eight nests whose birds differ as real ones do (tube-fed
// doves, broodmates of different intervals, an arrival still warming, a bird on hold), and the people
// to feed them. Set up by commands, like everything else on a board.

import {
  type BirdId,
  type IncubatorId,
  minuteMs,
  type PersonId,
  type PlanId,
} from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { Role, SignOff } from '../../shared/board/constants.ts'
import type { CarePlan } from '../../shared/board/parts.ts'

export const founderId = 'p1' as PersonId

type Helper = { readonly role: Role; readonly signOffs: readonly SignOff[] }

const lead: Helper = {
  role: 'lead',
  signOffs: ['gapeSyringe', 'insectTweezers', 'cropTube', 'fluids', 'mentor'],
}
const tubeFeeder: Helper = {
  role: 'volunteer',
  signOffs: ['gapeSyringe', 'insectTweezers', 'cropTube', 'fluids'],
}
const volunteer: Helper = { role: 'volunteer', signOffs: ['gapeSyringe', 'insectTweezers'] }
const trainee: Helper = { role: 'trainee', signOffs: ['gapeSyringe'] }

/** One helper for each handheld, the lead first; the founder shares the lead's. */
export const helpers = (handhelds: number): readonly Helper[] =>
  Array.from(
    { length: handhelds },
    (_, at) => [lead, tubeFeeder, volunteer, trainee][at] ?? volunteer,
  )

const plan = (label: string, minutes: number, rest: Partial<CarePlan> = {}) => ({
  ...{ label, technique: 'gapeSyringe' as const, earlyPercent: 15, cap: null },
  timing: { type: 'every' as const, intervalMs: minutes * minuteMs },
  planned: { unit: 'uL' as const, n: 400 },
  source: 'invented for the simulation',
  ...rest,
})

const plans = [
  plan('every 20 min', 20),
  plan('every 30 min', 30),
  plan('every 45 min', 45),
  plan('every 60 min, insects', 60, { technique: 'insectTweezers' }),
  plan('crop tube', 180, { technique: 'cropTube', earlyPercent: 0 }),
  plan('five times a day', 60, {
    timing: { type: 'at', minutesOfDay: [7, 10, 13, 16, 19].map((hour) => hour * 60) },
  }),
] as const

/** Each brood's incubator, and the plan of each of its birds. */
const broods: readonly (readonly [incubator: number, species: string, plans: readonly number[]])[] =
  [
    [1, 'HOFI', [2, 2, 2, 2]],
    [1, 'BEWR', [1, 1, 1]],
    [2, 'AMRO', [2, 3, 3]],
    [3, 'MODO', [5, 5]],
    [2, 'NOMO', [3, 3, 3, 3]],
    [1, 'SOSP', [2, 4, 2]],
    [3, 'LEGO', [6, 6]],
  ]

/** The broods, and the box that comes in. */
export const nestsAtFirst = broods.length + 1

const bands = ['red', 'blue', 'green', 'yellow'] as const

const admitted = ([incubator, species, ofBirds]: (typeof broods)[number], at: number): Command => ({
  ...{ type: 'AdmitBrood', v: 1, label: 'ABCDEFG'[at] ?? 'Z', quarantined: false },
  incubator: `i${incubator}` as IncubatorId,
  birds: ofBirds.map((plan, bird) => ({
    band: bands[bird] ?? null,
    species,
    plan: `c${plan}` as PlanId,
  })),
})

/** In order; each follows from the ones before it. `nowMs` is the room's time. */
export const firstMorning = (handhelds: number, nowMs: number): readonly Command[] => [
  ...helpers(handhelds).map(
    ({ role, signOffs }, at): Command => ({
      ...{ type: 'AddPerson', v: 1, role, signOffs: [...signOffs] },
      private: { name: `Person ${at + 2}` },
    }),
  ),
  ...(handhelds < 4
    ? []
    : [{ type: 'SetMentor', v: 1, person: 'p5' as PersonId, mentor: 'p2' as PersonId } as const]),
  ...plans.map((one): Command => ({ type: 'SetPlan', v: 1, plan: one })),
  ...['1', '2', '3'].map((label): Command => ({ type: 'AddIncubator', v: 1, label })),
  ...broods.map(admitted),
  {
    ...{ type: 'HoldBird', v: 1, bird: 'b9' as BirdId, reason: 'cool to touch, warm first' },
    lookAgainAtMs: nowMs + 90 * minuteMs,
  },
  {
    ...{ type: 'BoxArrived', v: 1, label: 'H', incubator: 'i3' as IncubatorId },
    ...{ howMany: 3, size: 'small', private: { note: 'came in a shoe box' } },
  },
]
