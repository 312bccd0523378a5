import { describe, expect, it } from 'vitest'
import { sharedLanes } from '../../client/wall/sharedLanes.ts'
import type { IncubatorId } from '../../shared/base/values.ts'
import type { Lane } from '../../shared/views/wallView.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { boardOf, names, nowMs } from '../support/boards.ts'

/** Incubators with so many nests each. */
function incubators(...nests: readonly number[]): readonly Lane[] {
  const board = boardOf(
    nests.flatMap((count, at) =>
      Array.from({ length: count }, (_, nest) => ({
        label: `N${at}${nest}`,
        incubator: at + 1,
        fedMinutesAgo: 3,
      })),
    ),
  )
  return wallView(board, names, nowMs).lanes
}
const tilesOf = (all: readonly Lane[]) =>
  sharedLanes(all).lanes.map(({ tiles }) => tiles.map(({ label }) => label).join('+'))

describe('incubators', () => {
  it('have a lane each, up to ten', () => {
    expect(tilesOf(incubators(...Array(10).fill(2)))).toEqual(
      Array.from({ length: 10 }, (_, at) => String(at + 1)),
    )
  })

  it('share lanes two by two from eleven on, those with the fewest nests', () => {
    const all = incubators(5, 1, 5, 5, 5, 5, 2, 5, 5, 1, 5, 2)
    expect(tilesOf(all)).toEqual(['1', '2+7', '3', '4', '5', '6', '8', '9', '10+12', '11'])
  })

  it('fill ten lanes at fourteen', () => {
    const { lanes, elsewhere } = sharedLanes(incubators(...Array(14).fill(3)))
    expect(lanes).toHaveLength(10)
    expect(lanes.flatMap(({ tiles }) => tiles)).toHaveLength(14)
    expect(elsewhere).toEqual([])
  })

  it('are named where this wall has no place for them', () => {
    const { lanes, elsewhere } = sharedLanes(incubators(...Array(17).fill(1)))
    expect(lanes).toHaveLength(10)
    expect(elsewhere).toEqual(['15', '16', '17'])
  })

  it('without a nest have a lane too', () => {
    const empty: Lane = { incubator: 'i9' as IncubatorId, label: '9', nests: [] }
    expect(tilesOf([...incubators(1), empty])).toEqual(['1', '9'])
  })
})
