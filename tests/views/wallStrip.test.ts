import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { countWidth, lateLeft, page, type TopKind } from '../../client/wall/frame.ts'
import type { StripLayout } from '../../client/wall/strip.ts'
import type { Placed } from '../../client/wall/tokens.ts'
import type { WallView } from '../../shared/views/wallView.ts'
import { type Box, laidOut, lanesAsBoxes, rooms } from './wallRooms.ts'
import { scenes } from './wallScenes.ts'

const tops = fc.constantFrom<TopKind>('calm', 'alerts', 'lost')
const slack = 1e-6
const labelsOf = (placed: readonly Placed[]): readonly string[] =>
  placed.flatMap(({ parts }) => parts.flatMap(({ nest }) => (nest ? [nest.label] : [])))

function drawnAndCounted(layout: StripLayout): readonly string[] {
  return layout.lanes.flatMap((lane) => [
    ...labelsOf([...lane.late, ...lane.hands, ...lane.coming]),
    ...[...lane.lateCounted, ...lane.handsCounted, ...lane.comingCounted].map(({ label }) => label),
  ])
}

const shownLanes = ({ lanes }: WallView) => lanes.slice(0, 14)
const labelsIn = (view: WallView): readonly string[] =>
  shownLanes(view).flatMap(({ nests }) => nests.map(({ label }) => label))

function overlaps(boxes: readonly Box[]): readonly string[] {
  const sorted = [...boxes].sort((a, b) => a.left - b.left)
  return sorted.flatMap((box, at) => {
    const next = sorted[at + 1]
    return next && next.left < box.right - slack ? [`${box.what} over ${next.what}`] : []
  })
}

describe('any room', () => {
  it('has no shape over another in a lane', () => {
    fc.assert(
      fc.property(rooms, tops, (view, top) => {
        for (const boxes of lanesAsBoxes(laidOut(view, top))) expect(overlaps(boxes)).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('has every nest once: drawn, or counted', () => {
    fc.assert(
      fc.property(rooms, (view) => {
        expect([...drawnAndCounted(laidOut(view))].sort()).toEqual([...labelsIn(view)].sort())
      }),
      { numRuns: 200 },
    )
  })

  it('keeps every shape on the page and out of the column of counts', () => {
    fc.assert(
      fc.property(rooms, tops, (view, top) => {
        for (const box of lanesAsBoxes(laidOut(view, top)).flat()) {
          expect(box.right).toBeLessThanOrEqual(page.width - countWidth + slack)
        }
      }),
      { numRuns: 200 },
    )
  })

  it('lets nobody cross the line: hands stand left of it, what comes stands right', () => {
    fc.assert(
      fc.property(rooms, (view) => {
        const { frame, lanes } = laidOut(view)
        for (const lane of lanes) {
          for (const one of [...lane.late, ...lane.hands]) {
            expect(frame.lateRight + one.left + one.width).toBeLessThanOrEqual(frame.nowX)
          }
          for (const one of lane.coming) expect(one.left).toBeGreaterThanOrEqual(6 - slack)
        }
      }),
      { numRuns: 200 },
    )
  })

  it('counts late nests only beside a later one, and draws the latest of each lane', () => {
    fc.assert(
      fc.property(rooms, (view) => {
        for (const lane of laidOut(view).lanes) {
          const lateOf = ({ state }: (typeof lane.lateCounted)[number]) =>
            state.type === 'late' ? state.lateMs : 0
          const drawn = lane.late.flatMap(({ parts }) => parts.flatMap(({ nest }) => nest ?? []))
          if (lane.lateCounted.length > 0) expect(drawn.length).toBeGreaterThan(0)
          const least = Math.min(...drawn.map(lateOf))
          for (const counted of lane.lateCounted) expect(lateOf(counted)).toBeLessThanOrEqual(least)
        }
      }),
      { numRuns: 200 },
    )
  })

  it('draws what comes in the order in which it is due', () => {
    fc.assert(
      fc.property(rooms, (view) => {
        for (const lane of laidOut(view).lanes) {
          const dues = [...lane.coming]
            .filter(({ shape }) => shape === 'mouth' || shape === 'warm' || shape === 'shut')
            .flatMap(({ left, parts }) => {
              const state = parts[0]?.nest?.isAsleep ? null : parts[0]?.nest?.state
              return state && 'dueAtMs' in state ? [{ left, dueAtMs: state.dueAtMs }] : []
            })
            .sort((a, b) => a.left - b.left)
            .map(({ dueAtMs }) => dueAtMs)
          expect(dues).toEqual([...dues].sort((a, b) => a - b))
        }
      }),
      { numRuns: 200 },
    )
  })
})

const sceneOf = (name: string): WallView => {
  const scene = scenes[name]
  if (!scene) throw new Error(`no scene ${name}`)
  return scene.view
}
const laneOf = (layout: StripLayout, label: string) =>
  layout.lanes.find(({ tiles }) => tiles.some((tile) => tile.label === label))

describe('late nests of one lane', () => {
  it('become one mouth from three on, the latest first and the only one with its minutes', () => {
    const { parts = [] } = laneOf(laidOut(sceneOf('fourLate')), '3')?.late[0] ?? {}
    expect(parts.map(({ text }) => text)).toEqual(['M', '16', 'L', 'K', 'J'])
  })

  it('keep a shape of their own where somebody may have fed one', () => {
    const lane = laneOf(laidOut(sceneOf('jammed60')), '1')
    expect(lane?.late.map(({ isDoubted, parts }) => [isDoubted, parts.length])).toEqual([
      [false, 4],
      [true, 2],
    ])
  })

  it('push the line to the right', () => {
    const calm = laidOut(sceneOf('calm24')).frame.nowX
    expect(calm).toBe(804)
    expect(laidOut(sceneOf('trouble60')).frame.nowX).toBe(1_020)
    expect(laidOut(sceneOf('jammed60')).frame.lateRight - lateLeft).toBe(760)
  })
})

describe('hands', () => {
  it('say label, name and minutes, alone in their lane', () => {
    const lane = laneOf(laidOut(sceneOf('trouble60'), 'alerts'), '1')
    expect(lane?.hands[0]?.parts.map(({ text }) => text)).toEqual(['C', 'Mira', '2'])
  })

  it('ask where somebody was offered a nest and did not answer yet', () => {
    const lane = laneOf(laidOut(sceneOf('trouble60'), 'alerts'), '8')
    expect(lane?.hands[0]).toMatchObject({ shape: 'asked' })
    expect(lane?.hands[0]?.parts.map(({ text }) => text)).toEqual(['AV', 'Saba?'])
  })

  it('that no bar has room to name are named in the foot', () => {
    const layout = laidOut(sceneOf('crowdedHands'))
    expect(laneOf(layout, '1')?.hands.every(({ parts }) => parts.length === 1)).toBe(true)
    expect(layout.foot.items.map(({ text }) => text)).toContain('D Noor')
  })
})

describe('a reason for not feeding', () => {
  it('stands beside its box while it hides no nest that comes', () => {
    const box = laneOf(laidOut(sceneOf('calm24')), '4')?.coming.find(
      ({ shape }) => shape === 'struck',
    )
    expect(box?.after).toBe('crop full')
  })

  it('moves to the foot where it would hide one, and the box stays', () => {
    const layout = laidOut(sceneOf('late60'))
    const box = laneOf(layout, '1')?.coming.find(({ shape }) => shape === 'struck')
    expect(box?.after).toBeNull()
    expect(box?.parts[0]?.text).toBe('F')
  })
})

describe('lights out', () => {
  it('is an edge: whoever feeds again stands before it, whoever sleeps behind it', () => {
    const layout = laidOut(sceneOf('lastRound24'), 'calm', scenes.lastRound24?.nowMs)
    const edge = layout.edgePx ?? 0
    expect(edge).toBe(12 * 36)
    for (const one of layout.lanes.flatMap(({ coming }) => coming)) {
      const isAsleep = one.parts[0]?.nest?.isAsleep
      if (isAsleep) expect(one.left).toBeGreaterThan(edge)
      else expect(one.left + one.width).toBeLessThan(edge)
    }
    expect(layout.scale.end).toBe('asleep until 06:00')
  })
})
