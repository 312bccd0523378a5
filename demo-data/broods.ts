// Broods written down in few words: so many birds alike on a plan, banded or not. The quarantined ones
// say so; everything else is what a lead types when a brood comes in.

import type { Brood, DemoBird } from './demoRoom.ts'
import type { PlanKey } from './plans.ts'

/** Each a shape and a word on the screens. */
const bands = ['red', 'blue', 'yellow', 'green', 'white'] as const

/** Nestmates never weigh the same; these differ by so much from one to the next. */
const stepMg = 200

/** So many banded birds on one plan, the first of about this weight. */
export const alike = (howMany: number, plan: PlanKey, massG: number): readonly DemoBird[] =>
  Array.from({ length: howMany }, (_, at) => ({
    band: bands[at] ?? null,
    plan,
    massMg: massG * 1_000 - at * stepMg,
  }))

export const unmarked = (birds: readonly DemoBird[]): readonly DemoBird[] =>
  birds.map((bird) => ({ ...bird, band: null }))

/** The birds with another plan for the one of this band: a runt, or one that does not gape. */
export const except = (
  birds: readonly DemoBird[],
  band: string,
  other: Pick<DemoBird, 'plan' | 'massMg'>,
): readonly DemoBird[] => birds.map((bird) => (bird.band === band ? { ...bird, ...other } : bird))

type Placed = Pick<Brood, 'label' | 'species' | 'birds'>

/** The broods of one incubator. */
export const inIncubator = (incubator: number, broods: readonly Placed[]): readonly Brood[] =>
  broods.map((brood) => ({ ...brood, incubator, quarantined: false }))

export const quarantinedIn = (incubator: number, brood: Placed): Brood => ({
  ...brood,
  incubator,
  quarantined: true,
})
