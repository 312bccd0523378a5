// The lamp of a lane: who has a nest, and who is asked. Bars say label, name and minutes; where several
// hands meet in one lane they say less, and a lane without late nests lends them its dark. A name no
// bar has room for is said in the foot instead.

import type { InstantMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { wholeMinutes } from '../ui/clock.ts'
import { gap, lampWidth } from './frame.ts'
import {
  countOf,
  labelPart,
  type Part,
  type Placed,
  type Ruler,
  specOf,
  type Token,
  tokenOf,
  tokensWidth,
  whoPart,
} from './tokens.ts'
import { stripWords } from './words.ts'

export type LampPart = {
  readonly placed: readonly Placed[]
  readonly counted: readonly WallNest[]
  /** Nests of which the name is not in the lamp. */
  readonly unnamed: readonly WallNest[]
}

/** Clear of the line and of the lamp's left edge. */
const margin = { left: 8, right: 17 } as const
const lampRoom = lampWidth - margin.left - margin.right

type Form = 'all' | 'name' | 'minutes' | 'label'

export const isInHands = ({ state, offer }: WallNest): boolean =>
  state.type === 'claimed' || offer !== null

/** Who has it or is asked, as the strip says it. */
export function handsName({ state, offer }: WallNest): string {
  if (state.type === 'claimed') return state.name ?? stripWords.somebody
  return stripWords.asked(offer?.name ?? stripWords.somebody)
}

function barParts(nest: WallNest, form: Form, nowMs: InstantMs): readonly Part[] {
  const { state } = nest
  const name = form === 'all' || form === 'name' ? [whoPart(handsName(nest))] : []
  if (state.type !== 'claimed') return [labelPart(nest), ...name]
  // "stop" is an order to its hands: it never gives way to a number.
  if (state.stop) return [labelPart(nest), ...name, whoPart(stripWords.stop)]
  const minutes = String(wholeMinutes(nowMs - state.sinceMs))
  const withMinutes = form === 'all' || form === 'minutes'
  return [labelPart(nest), ...name, ...(withMinutes ? [whoPart(minutes)] : [])]
}

function barsOf(nests: readonly WallNest[], form: Form, at: { nowMs: InstantMs; ruler: Ruler }) {
  return nests.map((nest) => {
    const shape = nest.state.type === 'claimed' ? 'bar' : 'asked'
    const isWanted = nest.state.type === 'claimed' && nest.state.stop !== null
    const parts = barParts(nest, form, at.nowMs)
    return tokenOf(specOf(nest, shape, { parts, isWanted }), at.ruler)
  })
}

/** Side by side, in the middle of the lamp while they fit there, else from its right edge leftwards. */
function sideBySide(tokens: readonly Token[], beforePx: number): readonly Placed[] {
  const total = tokensWidth(tokens) + beforePx
  const start =
    total <= lampRoom ? margin.left + (lampRoom - total) / 2 : lampWidth - margin.right - total
  let left = start + beforePx
  return tokens.map((token) => {
    const placed = { ...token, left }
    left += token.width + gap
    return placed
  })
}

const formsByWorth: readonly (readonly [Form, 'lamp' | 'lent'])[] = [
  ['all', 'lamp'],
  ['name', 'lamp'],
  ['all', 'lent'],
  ['name', 'lent'],
  ['minutes', 'lamp'],
  ['minutes', 'lent'],
  ['label', 'lent'],
]

export type LampRoom = {
  /** Free dark between the lamp and the lane's late nests. */
  readonly lentPx: number
  readonly nowMs: InstantMs
}

/** The hands of one lane; left edges count from the lamp's own left edge. */
export function placeHands(nests: readonly WallNest[], room: LampRoom, ruler: Ruler): LampPart {
  const inHands = nests.filter(isInHands).sort((a, b) => since(a) - since(b))
  for (const [form, where] of formsByWorth) {
    const tokens = barsOf(inHands, form, { nowMs: room.nowMs, ruler })
    const roomPx = lampRoom + (where === 'lent' ? Math.max(0, room.lentPx) : 0)
    if (tokensWidth(tokens) > roomPx) continue
    const isNamed = form === 'all' || form === 'name'
    return { placed: sideBySide(tokens, 0), counted: [], unnamed: isNamed ? [] : inHands }
  }
  return mostOf(inHands, room, ruler)
}

/**
 * More hands than labels fit: the longest at work are shown, the others counted. Their marks give way
 * first, for what a mark stands for is said in the band as well.
 */
function mostOf(inHands: readonly WallNest[], room: LampRoom, ruler: Ruler): LampPart {
  const all = barsOf(inHands, 'label', { nowMs: room.nowMs, ruler }).map((bar) =>
    tokenOf({ ...bar, marks: [] }, ruler),
  )
  let shown = all.length - 1
  const takes = (n: number) => tokensWidth(all.slice(0, n)) + countOf(all.length - n, ruler)
  while (shown > 1 && takes(shown) > lampRoom) shown -= 1
  const counted = inHands.slice(shown)
  const placed = sideBySide(all.slice(0, shown), countOf(counted.length, ruler))
  return { placed, counted, unnamed: inHands }
}

/** Asked ones stand last. */
const since = ({ state }: WallNest): number =>
  state.type === 'claimed' ? state.sinceMs : Number.POSITIVE_INFINITY
