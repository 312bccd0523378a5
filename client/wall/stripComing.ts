// The coming part of a lane, right of the line: every nest by the moment it is due, moved as little as
// its neighbours ask, nobody across the line. What lies beyond the window is counted. Near lights out
// the part ends in an edge, and beyond it nests sleep in rows that know no time.

import { type InstantMs, minuteMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { gap, minutePx } from './frame.ts'
import { isotonicFit } from './isotonicFit.ts'
import { type Boxes, boxesOf, isAside, placeBoxes } from './stripAside.ts'
import { isInHands } from './stripLamp.ts'
import {
  type Placed,
  type Ruler,
  type Shape,
  specOf,
  type Token,
  tokenOf,
  tokensWidth,
} from './tokens.ts'
import { stripWords } from './words.ts'

export type ComingPart = {
  readonly placed: readonly Placed[]
  readonly counted: readonly WallNest[]
  /** Boxes whose reason is said in the foot. */
  readonly unsaid: readonly WallNest[]
}

export type ComingRoom = {
  readonly widthPx: number
  readonly nowMs: InstantMs
  readonly time: (atMs: InstantMs) => string
  /** Where lights go out, counted from the line; null while that lies beyond the window. */
  readonly edgePx: number | null
}

/** Clear of the line, and of the edge at lights out. */
const lineGap = 6
const edgeGap = 10
const bedGap = 34

const dueAt = ({ state }: WallNest): InstantMs => ('dueAtMs' in state ? state.dueAtMs : 0)

export const leftOf = (atMs: InstantMs, nowMs: InstantMs): number =>
  ((atMs - nowMs) / minuteMs) * minutePx

function shapeOf({ state }: WallNest): Shape {
  if (state.type === 'due') return 'mouth'
  return state.type === 'soon' ? 'warm' : 'shut'
}

const comes = (nest: WallNest): boolean =>
  !isInHands(nest) && !isAside(nest) && nest.state.type !== 'late'

type Coming = { readonly nest: WallNest; readonly token: Token; readonly wish: number }

function comingOf(nests: readonly WallNest[], room: ComingRoom, ruler: Ruler): readonly Coming[] {
  return nests
    .filter((nest) => comes(nest) && !nest.isAsleep)
    .sort((a, b) => dueAt(a) - dueAt(b))
    .map((nest) => {
      const after = nest.isQuarantined ? stripWords.last : null
      const token = tokenOf(specOf(nest, shapeOf(nest), { after }), ruler)
      return { nest, token, wish: Math.max(lineGap, leftOf(dueAt(nest), room.nowMs)) }
    })
}

/** How many of these, in order, are drawn when the part ends at `toPx`. */
function shownOf(coming: readonly Coming[], toPx: number, isEdge: boolean): number {
  // At lights out everything still due belongs before the edge, however close it comes to it.
  const inWindow = isEdge
    ? coming.length
    : coming.findIndex(({ wish, token }) => wish + token.width > toPx)
  let shown = inWindow < 0 ? coming.length : inWindow
  const takes = (n: number) => tokensWidth(coming.slice(0, n).map(({ token }) => token))
  while (shown > 0 && takes(shown) > toPx - lineGap) shown -= 1
  return shown
}

/** As many reasons as can be said without hiding a nest. */
function boxesFor(
  nests: readonly WallNest[],
  room: ComingRoom,
  at: { readonly ruler: Ruler; readonly hiddenBy: (boxesPx: number) => number },
): Boxes {
  const boxes = (said: number) =>
    boxesOf(
      nests,
      { nowMs: room.nowMs, time: room.time, said },
      { roomPx: room.widthPx, ruler: at.ruler },
    )
  const bare = boxes(0)
  const hidden = at.hiddenBy(bare.width)
  for (let said = bare.tokens.length; said > 0; said -= 1) {
    const worded = boxes(said)
    if (worded.width < room.widthPx && at.hiddenBy(worded.width) <= hidden) return worded
  }
  return bare
}

/** Who sleeps, in columns from the edge on. */
function beds(nests: readonly WallNest[], fromPx: number, at: { toPx: number; ruler: Ruler }) {
  const tokens = nests.map((nest) => tokenOf(specOf(nest, 'shut'), at.ruler))
  const pitch = Math.max(0, ...tokens.map(({ width }) => width)) + 2 * gap
  const fits = Math.max(0, Math.floor((at.toPx - fromPx + 2 * gap) / pitch))
  const placed = tokens
    .slice(0, fits)
    .map((token, place) => ({ ...token, left: fromPx + place * pitch }))
  return { placed, counted: nests.slice(fits) }
}

/** What is drawn when the boxes at the right end take `boxesPx`. */
function partBefore(
  nests: readonly WallNest[],
  boxesPx: number,
  at: { readonly room: ComingRoom; readonly ruler: Ruler },
) {
  const { widthPx, edgePx } = at.room
  const toPx = widthPx - boxesPx
  const endPx = edgePx === null ? toPx - lineGap : Math.min(edgePx - edgeGap, toPx - lineGap)
  const coming = comingOf(nests, at.room, at.ruler)
  const shown = coming.slice(0, shownOf(coming, endPx, edgePx !== null))
  const asleep = nests.filter((nest) => comes(nest) && nest.isAsleep)
  const inBeds =
    edgePx === null
      ? { placed: [], counted: asleep }
      : beds(asleep, Math.max(0, edgePx) + bedGap, { toPx, ruler: at.ruler })
  const waiting = coming.slice(shown.length).map(({ nest }) => nest)
  return { shown, endPx, beds: inBeds.placed, counted: [...waiting, ...inBeds.counted] }
}

/** The coming part of one lane; left edges count from the line. */
export function placeComing(
  nests: readonly WallNest[],
  room: ComingRoom,
  ruler: Ruler,
): ComingPart {
  const part = (boxesPx: number) => partBefore(nests, boxesPx, { room, ruler })
  const hiddenBy = (boxesPx: number) => part(boxesPx).counted.length
  const boxes = boxesFor(nests, room, { ruler, hiddenBy })
  const { shown, endPx, beds, counted } = part(boxes.width)
  const wishes = shown.map(({ wish, token }) => ({ left: wish, width: token.width }))
  const lefts = isotonicFit(wishes, { from: lineGap, to: endPx, gap })
  return {
    placed: [
      ...shown.map(({ token }, at) => ({ ...token, left: lefts[at] ?? 0 })),
      ...beds,
      ...placeBoxes(boxes, room.widthPx),
    ],
    counted: [...counted, ...boxes.counted],
    unsaid: boxes.unsaid,
  }
}
