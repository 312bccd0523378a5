// What can go wrong when fluids are given, said on the page where they are recorded. No volume stands
// here: volumes come from a protocol that a room's licensed supervisor has entered and dated.

import type { Caution } from './cautions.ts'

export type FluidCaution = Caution & {
  /** Only for this way of giving them; every way where it is absent. */
  readonly route?: 'byMouth' | 'underSkin'
}

/** In the order a screen shows them. */
export const fluidCautions: readonly FluidCaution[] = [
  {
    source: 'HRB2 p. 9',
    trust: 'read',
    route: 'byMouth',
    text: 'A bird that does not swallow gets nothing quickly by mouth: it would breathe it in.',
  },
  {
    source: 'HRB2 p. 9',
    trust: 'read',
    route: 'underSkin',
    text: 'Under 5 g any needle bruises: by mouth whenever that is possible.',
  },
  {
    source: 'HRB2 p. 590',
    trust: 'read',
    route: 'underSkin',
    text: 'Again only after the last has been absorbed.',
  },
  {
    source: 'EAF5',
    trust: 'read',
    text: 'Fluid is warmed to 38–39 °C (100–102 °F).',
  },
]
