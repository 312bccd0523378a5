// The whole wall laid out: from what the room is, how wide words are, and how wide the late zone
// stands, to where every piece stands. Pure; the page draws what this says and places nothing itself.

import type { InstantMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import type { WallView } from '../../shared/views/wallView.ts'
import { type FootRow, footRow } from './foot.ts'
import { type Frame, frameOf, gap, lateLeft, type TopKind } from './frame.ts'
import type { WidthOf } from './measure.ts'
import { edgeOf, type Scale, scaleRow } from './scaleRow.ts'
import { type SharedLane, sharedLanes, tilesExtra } from './sharedLanes.ts'
import { placeComing } from './stripComing.ts'
import { isInHands, placeHands } from './stripLamp.ts'
import { lateNeed, placeLate } from './stripLate.ts'
import type { Placed, Ruler } from './tokens.ts'

export type StripInput = {
  readonly view: WallView
  readonly nowMs: InstantMs
  readonly time: (atMs: InstantMs) => string
  readonly widthOf: WidthOf
  readonly top: TopKind
  readonly lateStop: number
}

export type LaneLayout = {
  readonly tiles: readonly { readonly key: string; readonly label: string }[]
  readonly isBehind: boolean
  readonly late: readonly Placed[]
  readonly lateCounted: readonly WallNest[]
  readonly hands: readonly Placed[]
  readonly handsCounted: readonly WallNest[]
  readonly coming: readonly Placed[]
  readonly comingCounted: readonly WallNest[]
}

export type StripLayout = {
  readonly frame: Frame
  readonly lanes: readonly LaneLayout[]
  readonly scale: Scale
  readonly edgePx: number | null
  readonly foot: FootRow
  readonly elsewhere: readonly string[]
}

/** A claimed or asked nest stands in the lamp and nowhere else. */
const notInHands = (nests: readonly WallNest[]): readonly WallNest[] =>
  nests.filter((nest) => !isInHands(nest))

/** How wide the late zone must be for the fullest lane of this view. */
export function lateNeedOf(input: Pick<StripInput, 'view' | 'top' | 'widthOf'>): number {
  const { lanes } = sharedLanes(input.view.lanes)
  const { sizes } = frameOf(lanes.length, input.top, 216)
  const ruler = { sizes, widthOf: input.widthOf }
  const needs = lanes.map((lane) => {
    const need = lateNeed(notInHands(lane.nests), ruler)
    return need === 0 ? 0 : need + tilesExtra(lane)
  })
  return Math.max(0, ...needs)
}

function laneLayout(lane: SharedLane, frame: Frame, input: StripInput) {
  const { nowMs, time } = input
  const ruler: Ruler = { sizes: frame.sizes, widthOf: input.widthOf }
  const lateRoom = frame.lateRight - lateLeft - tilesExtra(lane)
  const late = placeLate(notInHands(lane.nests), lateRoom, ruler)
  const last = late.placed.at(-1)
  const lentPx = last ? -(last.left + last.width) - 2 * gap : lateRoom
  const hands = placeHands(lane.nests, { lentPx, nowMs }, ruler)
  const edgePx = edgeOf(input.view.hours, nowMs, frame.comingWidth)
  const room = { widthPx: frame.comingWidth, nowMs, time, edgePx }
  const coming = placeComing(lane.nests, room, ruler)
  return { late, hands, coming }
}

/** The wall's layout at `nowMs`. */
export function stripLayout(input: StripInput): StripLayout {
  const { view, nowMs, time, widthOf } = input
  const { lanes, elsewhere } = sharedLanes(view.lanes)
  const frame = frameOf(lanes.length, input.top, input.lateStop)
  const parts = lanes.map((lane) => ({ lane, ...laneLayout(lane, frame, input) }))
  const { hours, opensAgainAtMs } = view
  return {
    frame,
    lanes: parts.map(({ lane, late, hands, coming }) => ({
      tiles: lane.tiles.map(({ incubator, label }) => ({ key: incubator, label })),
      isBehind: late.placed.length > 0,
      late: late.placed,
      lateCounted: late.counted,
      hands: hands.placed,
      handsCounted: hands.counted,
      coming: coming.placed,
      comingCounted: coming.counted,
    })),
    scale: scaleRow(frame, { nowMs, hours, opensAgainAtMs, time, widthOf }),
    edgePx: edgeOf(hours, nowMs, frame.comingWidth),
    foot: footRow({
      view,
      unnamed: parts.flatMap(({ hands }) => hands.unnamed),
      unsaid: parts.flatMap(({ coming }) => coming.unsaid),
      nowMs,
      time,
      widthOf,
    }),
    elsewhere,
  }
}
