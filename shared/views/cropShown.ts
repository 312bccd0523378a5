// Whose crop can be seen, so that a screen draws a good and a full one beside the plan where there is
// one to look at, and never elsewhere. Which species show a crop is the species table's to say.

import type { PlanGroup } from '../care/defaultPlan.ts'
import { speciesOf } from '../care/species.ts'

/** The two kinds of crop there are drawings of. */
export type CropLook = 'songbird' | 'dove'

const lookOf: Partial<Readonly<Record<PlanGroup, CropLook>>> = {
  houseFinch: 'songbird',
  smallSongbird: 'songbird',
  dove: 'dove',
  pigeon: 'dove',
}

/** The crop to draw for birds of these species codes; null where none of them shows one. */
export function cropShown(codes: readonly (string | null)[]): CropLook | null {
  for (const code of codes) {
    const species = code === null ? null : speciesOf(code)
    const look = species?.showsCrop ? lookOf[species.group] : undefined
    if (look) return look
  }
  return null
}
