// The late part of a lane, left of the lamp: the latest leftmost, six pixels from the lamp for every
// minute late or against its neighbour. Three or more become one mouth with all their labels. What
// does not fit is counted at the left end, and never the latest.

import { type LengthMs, minuteMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { gap } from './frame.ts'
import {
  countOf,
  labelPart,
  marksOf,
  minutesPart,
  type Placed,
  type Ruler,
  type Spec,
  specOf,
  type Token,
  tokenOf,
  tokensWidth,
} from './tokens.ts'

/** From here a late nest grows, turns orange and says its minutes. */
export const wideFromMs = 10 * minuteMs
const pileFrom = 3
const latePx = 6
/** Between the lamp and what is hardly late. */
export const lampGap = 10

export type LatePart = { readonly placed: readonly Placed[]; readonly counted: readonly WallNest[] }

type Late = { readonly spec: Spec; readonly lateMs: LengthMs }

export const lateOf = ({ state }: WallNest): LengthMs => (state.type === 'late' ? state.lateMs : 0)

const minutes = (lateMs: LengthMs): number => Math.floor(lateMs / minuteMs)

function single(nest: WallNest): Late {
  const lateMs = lateOf(nest)
  const isWide = lateMs >= wideFromMs
  const parts = isWide ? [labelPart(nest), minutesPart(minutes(lateMs))] : [labelPart(nest)]
  return { spec: specOf(nest, isWide ? 'wide' : 'mouth', { parts }), lateMs }
}

/** One mouth around all of these: labels latest first, minutes for the latest only. */
function pile(nests: readonly WallNest[]): Late {
  const lateMs = Math.max(...nests.map(lateOf))
  const isWide = lateMs >= wideFromMs
  const parts = nests.flatMap((nest, at) =>
    isWide && at === 0 ? [labelPart(nest), minutesPart(minutes(lateMs))] : [labelPart(nest)],
  )
  const spec = {
    shape: isWide ? ('wide' as const) : ('mouth' as const),
    parts,
    marks: [],
    after: null,
    isFenced: false,
    isDoubted: false,
    isWanted: false,
  }
  return { spec, lateMs }
}

/** What is doubted, fenced or marked keeps a shape of its own: it is not just one more mouth. */
const merges = (nest: WallNest): boolean =>
  !nest.doubt && !nest.isQuarantined && marksOf(nest).length === 0

function tokensOf(latestFirst: readonly WallNest[], ruler: Ruler) {
  const plain = latestFirst.filter(merges)
  const lates =
    plain.length >= pileFrom
      ? [pile(plain), ...latestFirst.filter((nest) => !merges(nest)).map(single)]
      : latestFirst.map(single)
  return lates
    .sort((a, b) => b.lateMs - a.lateMs)
    .map(({ spec, lateMs }) => ({ token: tokenOf(spec, ruler), lateMs }))
}

const latestFirst = (nests: readonly WallNest[]): readonly WallNest[] =>
  nests.filter(({ state }) => state.type === 'late').sort((a, b) => lateOf(b) - lateOf(a))

/** How wide the late zone must be for all of this lane's late nests. */
export function lateNeed(nests: readonly WallNest[], ruler: Ruler): number {
  const tokens = tokensOf(latestFirst(nests), ruler).map(({ token }) => token)
  return tokens.length === 0 ? 0 : tokensWidth(tokens) + lampGap
}

/** As many of the latest as fit in `roomPx`, the count of the others included. */
function thatFit(nests: readonly WallNest[], roomPx: number, ruler: Ruler) {
  for (let shown = nests.length; shown > 1; shown -= 1) {
    const tokens = tokensOf(nests.slice(0, shown), ruler)
    const count = countOf(nests.length - shown, ruler)
    if (tokensWidth(tokens.map(({ token }) => token)) + lampGap + count <= roomPx) {
      return { tokens, counted: nests.slice(shown) }
    }
  }
  return { tokens: tokensOf(nests.slice(0, 1), ruler), counted: nests.slice(1) }
}

/** Late nests in a zone `roomPx` wide; left edges count from the lamp, so they are below zero. */
export function placeLate(nests: readonly WallNest[], roomPx: number, ruler: Ruler): LatePart {
  const { tokens, counted } = thatFit(latestFirst(nests), roomPx, ruler)
  let neighbour = 0
  const fromRight = [...tokens].reverse().map(({ token, lateMs }) => {
    const own = -(lampGap + (latePx * lateMs) / minuteMs)
    const left = Math.min(neighbour, own) - token.width
    neighbour = left - gap
    return { ...token, left }
  })
  return { placed: kept(fromRight.reverse(), countOf(counted.length, ruler) - roomPx), counted }
}

/** The same, none of them further left than `least`. */
function kept(placed: readonly (Token & { left: number })[], least: number): readonly Placed[] {
  let from = least
  return placed.map((one) => {
    const left = Math.max(from, one.left)
    from = left + one.width + gap
    return { ...one, left }
  })
}
