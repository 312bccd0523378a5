// Which incubators stand in which lane. Ten have a lane each; of eleven to fourteen the smallest share
// one, two by two, tiles side by side. Smallest, not calmest this minute: a nest keeps its lane all day.

import type { Lane } from '../../shared/views/wallView.ts'
import { incubatorMax, laneMax, tile } from './frame.ts'

export type SharedLane = { readonly tiles: readonly Lane[]; readonly nests: Lane['nests'] }
export type Lanes = {
  readonly lanes: readonly SharedLane[]
  /** Labels of incubators this wall has no place for. */
  readonly elsewhere: readonly string[]
}

const alone = (lane: Lane): SharedLane => ({ tiles: [lane], nests: lane.nests })
const together = (a: Lane, b: Lane): SharedLane => ({
  tiles: [a, b],
  nests: [...a.nests, ...b.nests],
})

/** The lanes of this wall, in the order of the incubators' labels. */
export function sharedLanes(all: readonly Lane[]): Lanes {
  const shown = all.slice(0, incubatorMax)
  const tooMany = Math.max(0, shown.length - laneMax)
  const smallest = new Set(
    [...shown].sort((a, b) => a.nests.length - b.nests.length).slice(0, 2 * tooMany),
  )
  const sharing = shown.filter((lane) => smallest.has(lane))
  const lanes = shown.flatMap((lane) => {
    const place = sharing.indexOf(lane)
    if (place < 0) return [alone(lane)]
    const other = sharing[place + 1]
    return place % 2 === 0 && other ? [together(lane, other)] : []
  })
  return { lanes, elsewhere: all.slice(incubatorMax).map(({ label }) => label) }
}

/** What the tiles of a lane take from its late zone. */
export const tilesExtra = ({ tiles }: SharedLane): number =>
  (tiles.length - 1) * (tile.width + tile.gap)
