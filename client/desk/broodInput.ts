// A brood as it is filled in: how many birds, and the bands some of them carry. Pure.

import { no, ok, type Result } from '../../shared/base/control.ts'
import type { PlanId } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import { birdsPerNestMax } from '../../shared/board/constants.ts'

export type TypedBirds = {
  readonly howMany: string
  /** "red, blue"; the birds after the last one named carry none. */
  readonly bands: string
  readonly species: string
  readonly plan: PlanId
}

export type BroodProblem = 'howMany' | 'bands' | 'species'

const bandMax = 12

/** The birds to admit, or what is wrong first. */
export function birdsOfFields(
  typed: TypedBirds,
): Result<CommandOf<'AdmitBrood'>['birds'], BroodProblem> {
  const howMany = Number(typed.howMany)
  if (!Number.isInteger(howMany) || howMany < 1 || howMany > birdsPerNestMax) return no('howMany')
  const bands = typed.bands
    .split(',')
    .map((band) => band.trim())
    .filter((band) => band !== '')
  const isFit = bands.length <= howMany && bands.every((band) => band.length <= bandMax)
  if (!isFit || new Set(bands).size < bands.length) return no('bands')
  const species = typed.species.trim().toUpperCase()
  if (!/^[A-Z]{4}$/.test(species)) return no('species')
  const { plan } = typed
  return ok(
    Array.from({ length: howMany }, (_, at) => ({ band: bands[at] ?? null, species, plan })),
  )
}
