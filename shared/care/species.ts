// The species a nestling room sees most, by name: which default plans are theirs and whether their crop
// can be seen, so that a screen can say "House finch" beside a code and ask about a crop only where
// there is one to look at. How a code is made is in speciesCodes.ts.

import type { PlanGroup } from './defaultPlan.ts'
import { codeOf, speciesLists } from './speciesCodes.ts'

export type Species = {
  /** As a screen says it, with a capital at the start. */
  readonly name: string
  /** Whose default plans it starts from. */
  readonly group: PlanGroup
  /** Only some species show one (HRB2 p. 8); that it is these: from memory. */
  readonly showsCrop: boolean
}

const withCrop = (name: string, group: PlanGroup): Species => ({ name, group, showsCrop: true })
const without = (name: string, group: PlanGroup): Species => ({ name, group, showsCrop: false })

/** Which plan group a songbird falls into goes by its size: common practice, no source. */
export const knownSpecies: readonly Species[] = [
  withCrop('House finch', 'houseFinch'),
  withCrop('American goldfinch', 'smallSongbird'),
  withCrop('House sparrow', 'smallSongbird'),
  withCrop('Song sparrow', 'smallSongbird'),
  without('Carolina wren', 'smallInsectivore'),
  without('Eastern bluebird', 'smallSongbird'),
  without('Cedar waxwing', 'smallSongbird'),
  without('American robin', 'robinSizedSongbird'),
  without('Northern mockingbird', 'robinSizedSongbird'),
  without('Northern cardinal', 'robinSizedSongbird'),
  without('European starling', 'robinSizedSongbird'),
  withCrop('Mourning dove', 'dove'),
  withCrop('Rock pigeon', 'pigeon'),
  without('Chimney swift', 'swift'),
  withCrop('Ruby-throated hummingbird', 'hummingbird'),
]

const byCode: ReadonlyMap<string, Species> = new Map(
  knownSpecies.flatMap((species) =>
    speciesLists.flatMap((list) => {
      const code = codeOf(species.name, list)
      return code === null ? [] : [[code, species] as const]
    }),
  ),
)

/**
 * The species a code stands for, on whichever list: no code of one list means another of these birds
 * on the other. Null for a code that is not among them; then a screen shows the code alone.
 */
export const speciesOf = (code: string): Species | null => byCode.get(code) ?? null
