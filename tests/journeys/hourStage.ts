// The invented room of the scripted hour: six nests in two incubators, seven people, one of them away.
// Each nest falls due at the minute in which the hour needs it. What happens in it stands in hour.test.ts.

import type { BirdId, NestId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import { type Clock, c, everyMinutes, i, p, type Stage, type Told } from './crankedHouse.ts'

export const n = (no: number): NestId => `n${no}` as NestId
export const b = (no: number): BirdId => `b${no}` as BirdId

export const odile = p(1)
export const kwame = p(2)
export const ana = p(3)
export const ben = p(4)
export const mara = p(5)
export const cleo = p(6)
export const tomas = p(7)

/** By label, in the order in which they were put on the board. */
export const nests = { A: n(1), B: n(2), C: n(3), D: n(4), E: n(5), F: n(6) } as const
/** The nest that the hour itself brings. */
export const box = n(7)

/** Known by these labels, bird by bird; D's five have no bands. */
export const birds = {
  A: { red: b(1), blue: b(2) },
  B: { red: b(3), blue: b(4) },
  C: { red: b(5), blue: b(6), green: b(7) },
  D: [b(8), b(9), b(10), b(11), b(12)],
  E: { red: b(13), blue: b(14) },
  F: { red: b(15), blue: b(16), green: b(17) },
} as const

type Brood = {
  readonly label: string
  readonly incubator: number
  readonly bands: readonly (string | null)[]
  readonly plan: number
}
const broods: readonly Brood[] = [
  { label: 'A', incubator: 1, bands: ['red', 'blue'], plan: 1 },
  { label: 'B', incubator: 1, bands: ['red', 'blue'], plan: 1 },
  { label: 'C', incubator: 1, bands: ['red', 'blue', 'green'], plan: 1 },
  { label: 'D', incubator: 2, bands: [null, null, null, null, null], plan: 1 },
  { label: 'E', incubator: 2, bands: ['red', 'blue'], plan: 1 },
  { label: 'F', incubator: 2, bands: ['red', 'blue', 'green'], plan: 2 },
]

const admitted: readonly Told[] = broods.map(({ label, incubator, bands, plan }) => ({
  ...{ at: '08:00', by: odile },
  command: {
    ...{ type: 'AdmitBrood', v: 1, label, incubator: i(incubator), quarantined: false },
    birds: bands.map((band) => ({ band, species: 'HOFI', plan: c(plan) })),
  },
}))

const fed = (
  time: Clock,
  nest: NestId,
  outcomes: readonly (readonly [BirdId, Outcome])[],
): Told => ({
  ...{ at: time, by: odile },
  command: {
    ...{ type: 'AnswerBirds', v: 1, nest },
    answers: outcomes.map(([bird, outcome]) => ({ bird, outcome })),
  },
})

const ate = (time: Clock, nest: NestId, all: readonly BirdId[]): Told =>
  fed(
    time,
    nest,
    all.map((bird) => [bird, 'ate'] as const),
  )

export const hourStage: Stage = {
  people: [
    { name: 'Odile', role: 'permitHolder', signOffs: [] },
    { name: 'Kwame', role: 'lead', signOffs: ['gapeSyringe', 'fluids'] },
    { name: 'Ana', role: 'volunteer', signOffs: ['gapeSyringe'] },
    { name: 'Ben', role: 'volunteer', signOffs: ['gapeSyringe'] },
    { name: 'Mara', role: 'volunteer', signOffs: ['gapeSyringe', 'fluids'] },
    { name: 'Cleo', role: 'volunteer', signOffs: ['gapeSyringe', 'mentor'] },
    { name: 'Tomas', role: 'trainee', signOffs: ['gapeSyringe'] },
  ],
  // Early by nearly a third, so that a silent visit can end before anybody is late for it.
  plans: [everyMinutes(30, { earlyPercent: 30 }), everyMinutes(60, { earlyPercent: 30 })],
  incubators: 2,
  past: [
    ...admitted,
    ate('08:15', nests.F, Object.values(birds.F)),
    ate('08:30', nests.A, Object.values(birds.A)),
    ate('08:31', nests.B, Object.values(birds.B)),
    ate('08:38', nests.C, Object.values(birds.C)),
    ate('08:40', nests.D, birds.D),
    fed('08:57', nests.E, [
      [birds.E.red, 'refused'],
      [birds.E.blue, 'ate'],
    ]),
    { at: '08:58', by: odile, command: { type: 'SetMentor', v: 1, person: tomas, mentor: cleo } },
    // Nobody is asked for anything before: an empty room asks nobody.
    ...[kwame, ana, ben, mara, cleo, tomas].map(
      (by): Told => ({ at: '08:59', by, command: { type: 'BeginShift', v: 1 } }),
    ),
  ],
  now: '09:00',
}
