// The small demo room: one invented morning as commands, so that the compiler and the rules see every
// change. It is played from an hour ago up to now; what is due, late, settling and held at the end is
// the outcome of it and written nowhere. Ids follow from the order: the first nest is `n1`.

import type { BirdId, IncubatorId, NestId, PersonId, PlanId } from '../shared/base/values.ts'
import type { Command } from '../shared/board/commands.ts'
import type { Answer } from '../shared/board/parts.ts'
import { others } from './people.ts'
import { demoPlans } from './plans.ts'

/** One person's order, so many minutes after the room was founded. */
export type Step = { readonly atMin: number; readonly by: PersonId; readonly command: Command }

/** How long ago the room was founded: long enough for every nest to have had its first feed. */
export const foundedAgoMin = 60

const person = (n: number) => `p${n}` as PersonId
const incubator = (n: number) => `i${n}` as IncubatorId
const nest = (n: number) => `n${n}` as NestId
const bird = (n: number) => `b${n}` as BirdId
const plan = (n: number) => `c${n}` as PlanId

const founderId = person(1)
const lead = person(2)
const tubeFeeder = person(3)
const feeder = person(4)

const bands = ['red', 'blue', 'green', 'yellow'] as const

type Brood = {
  readonly label: string
  readonly incubator: number
  readonly species: string
  readonly birds: number
  readonly plan: number
  readonly massMg: number
  readonly admittedAtMin: number
}

/** Species codes of the Bird Banding Laboratory's list; both lists agree on these seven. */
const broods: readonly Brood[] = [
  { label: 'A', incubator: 1, species: 'HOFI', birds: 4, plan: 1, massMg: 9_000, admittedAtMin: 1 },
  { label: 'B', incubator: 1, species: 'BEWR', birds: 3, plan: 2, massMg: 6_000, admittedAtMin: 1 },
  {
    label: 'C',
    incubator: 2,
    species: 'AMRO',
    birds: 3,
    plan: 3,
    massMg: 40_000,
    admittedAtMin: 1,
  },
  {
    label: 'D',
    incubator: 3,
    species: 'MODO',
    birds: 2,
    plan: 4,
    massMg: 30_000,
    admittedAtMin: 2,
  },
  {
    label: 'E',
    incubator: 2,
    species: 'NOMO',
    birds: 4,
    plan: 5,
    massMg: 25_000,
    admittedAtMin: 2,
  },
  {
    label: 'F',
    incubator: 1,
    species: 'SOSP',
    birds: 3,
    plan: 6,
    massMg: 11_000,
    admittedAtMin: 2,
  },
  {
    label: 'G',
    incubator: 2,
    species: 'LEGO',
    birds: 4,
    plan: 7,
    massMg: 7_000,
    admittedAtMin: 28,
  },
]

/** The number of a brood's first bird: birds are numbered in the order of their broods. */
const firstBird = (brood: number): number =>
  1 + broods.slice(0, brood).reduce((sum, { birds }) => sum + birds, 0)

const birdsOf = (brood: number): readonly BirdId[] =>
  Array.from({ length: broods[brood]?.birds ?? 0 }, (_, at) => bird(firstBird(brood) + at))

/** Who fed which brood (0 is A), from when to when. In the order of the claims, which number them. */
type Visit = {
  readonly brood: number
  readonly by: PersonId
  readonly fromMin: number
  readonly toMin: number
  readonly some?: number
}

const visits: readonly Visit[] = [
  { brood: 1, by: tubeFeeder, fromMin: 4, toMin: 7 },
  { brood: 0, by: feeder, fromMin: 5, toMin: 9 },
  { brood: 3, by: lead, fromMin: 6, toMin: 12 },
  { brood: 2, by: tubeFeeder, fromMin: 9, toMin: 13 },
  { brood: 5, by: feeder, fromMin: 11, toMin: 14 },
  { brood: 4, by: feeder, fromMin: 16, toMin: 21, some: 2 },
  { brood: 1, by: tubeFeeder, fromMin: 24, toMin: 27 },
  { brood: 6, by: lead, fromMin: 29, toMin: 33 },
  { brood: 0, by: feeder, fromMin: 35, toMin: 38, some: 1 },
  { brood: 2, by: tubeFeeder, fromMin: 39, toMin: 42 },
  { brood: 5, by: feeder, fromMin: 41, toMin: 44 },
  { brood: 1, by: tubeFeeder, fromMin: 44, toMin: 47 },
]

function answersOf(visit: Visit): Answer[] {
  const amount = demoPlans[(broods[visit.brood]?.plan ?? 0) - 1]?.planned
  return birdsOf(visit.brood).map((id, at) => ({
    bird: id,
    outcome: at === visit.some ? 'some' : 'ate',
    ...(amount ? { given: { amount, is: 'planned' } } : {}),
  }))
}

const visitSteps = (visit: Visit, at: number): readonly Step[] => [
  {
    atMin: visit.fromMin,
    by: visit.by,
    command: { type: 'ClaimNest', v: 1, nest: nest(visit.brood + 1) },
  },
  {
    atMin: visit.toMin,
    by: visit.by,
    command: {
      type: 'AnswerBirds',
      v: 1,
      nest: nest(visit.brood + 1),
      claimNo: at + 1,
      answers: answersOf(visit),
      back: broods[visit.brood]?.birds ?? 0,
      door: 'shut',
    },
  },
]

const broodSteps = (brood: Brood, at: number): readonly Step[] => [
  {
    atMin: brood.admittedAtMin,
    by: lead,
    command: {
      type: 'AdmitBrood',
      v: 1,
      label: brood.label,
      incubator: incubator(brood.incubator),
      quarantined: false,
      birds: bands
        .slice(0, brood.birds)
        .map((band) => ({ band, species: brood.species, plan: plan(brood.plan) })),
    },
  },
  ...birdsOf(at).map(
    (id, order): Step => ({
      atMin: brood.admittedAtMin + 0.5,
      by: lead,
      command: { type: 'Weighed', v: 1, bird: id, massMg: brood.massMg - order * 200 },
    }),
  ),
]

const opening: readonly Step[] = [
  ...others.map(
    ({ name, role, signOffs }): Step => ({
      atMin: 0,
      by: founderId,
      command: { type: 'AddPerson', v: 1, role, signOffs: [...signOffs], private: { name } },
    }),
  ),
  ...demoPlans.map(
    (one): Step => ({
      atMin: 0,
      by: founderId,
      command: { type: 'SetPlan', v: 1, plan: one },
    }),
  ),
  ...['1', '2', '3'].map(
    (label): Step => ({
      atMin: 0,
      by: lead,
      command: { type: 'AddIncubator', v: 1, label },
    }),
  ),
  ...[lead, tubeFeeder, feeder].map(
    (by): Step => ({
      atMin: 0.5,
      by,
      command: { type: 'BeginShift', v: 1 },
    }),
  ),
]

/** What the three incubators show, in tenths of a degree, so many minutes after the founding. */
const readings = [
  { atMin: 3, tempsDeciC: [350, 330, 340] },
  { atMin: 58, tempsDeciC: [349, 331, 342] },
] as const

const readingSteps: readonly Step[] = readings.flatMap(({ atMin, tempsDeciC }) =>
  tempsDeciC.map((tempDeciC, at) => ({
    atMin,
    by: lead,
    command: {
      type: 'IncubatorRead',
      v: 1,
      incubator: incubator(at + 1),
      tempDeciC,
      humidityPercent: 50,
    } as const,
  })),
)

/** Minutes of the room's clock by which the held bird must be looked at again, from the founding. */
const lookAgainMin = 90

/** The steps that name an instant need to know when the room was founded. */
const held = (foundedAtMs: number): Step => ({
  atMin: 43,
  by: tubeFeeder,
  command: {
    type: 'HoldBird',
    v: 1,
    bird: bird(firstBird(2) + 1),
    reason: 'cool to touch, warm first',
    lookAgainAtMs: foundedAtMs + lookAgainMin * 60_000,
  },
})

const box: Step = {
  atMin: 50,
  by: lead,
  command: {
    type: 'BoxArrived',
    v: 1,
    label: 'H',
    incubator: incubator(3),
    howMany: 3,
    size: 'small',
    private: { note: 'Came in a shoe box with a tea towel.' },
  },
}

/** Every order of the morning, earliest first. */
export const smallRoomSteps = (foundedAtMs: number): readonly Step[] =>
  [
    ...opening,
    ...readingSteps,
    ...broods.flatMap(broodSteps),
    ...visits.flatMap(visitSteps),
    held(foundedAtMs),
    box,
  ].sort((a, b) => a.atMin - b.atMin)
