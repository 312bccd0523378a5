// Nests that no time of feeding belongs to, at the right end of their lane: on hold, warming after
// they arrived, or without a plan. Each is a box with a word; where the word would hide a nest that
// comes due, it moves to the foot and the box stays.

import type { InstantMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import { gap } from './frame.ts'
import { type Placed, type Ruler, specOf, type Token, tokenOf, tokensWidth } from './tokens.ts'
import { stripWords } from './words.ts'

type Time = (atMs: InstantMs) => string

/** Clear of the count's column. */
const rightMargin = 14
/** Boxes take no more than this of the coming part; the others are counted. */
const share = 0.5
const shortMax = 12

export const isAside = ({ state, offer }: WallNest): boolean =>
  offer === null &&
  (state.type === 'held' || state.type === 'settling' || state.type === 'unplanned')

/** As many of a reason's words as are few letters together, and two at least. */
function short(reason: string): string {
  const words = reason.split(' ')
  let said = words.length
  while (said > 2 && words.slice(0, said).join(' ').length > shortMax) said -= 1
  return words.slice(0, said).join(' ')
}

/** Why it is not fed, in two words or three short ones, or that somebody is to look. */
export function asideWords({ state }: WallNest, nowMs: InstantMs, time: Time): string {
  switch (state.type) {
    case 'held':
      return state.lookAgain === 'quiet' ? short(state.reason) : stripWords.lookNow
    case 'settling':
      return state.lookDueAtMs <= nowMs
        ? stripWords.lookNow
        : stripWords.lookAt(time(state.lookDueAtMs))
    default:
      return stripWords.noPlan
  }
}

const shapeOf = ({ state }: WallNest) =>
  state.type === 'held' ? 'struck' : state.type === 'settling' ? 'dome' : 'noPlan'

export type Boxes = {
  readonly tokens: readonly Token[]
  readonly width: number
  readonly counted: readonly WallNest[]
  /** Nests of which the reason is not beside the box. */
  readonly unsaid: readonly WallNest[]
}

export type BoxWords = { readonly nowMs: InstantMs; readonly time: Time; readonly said: number }

/** This lane's boxes, the first `said` of them with their words. */
export function boxesOf(
  nests: readonly WallNest[],
  words: BoxWords,
  at: { readonly roomPx: number; readonly ruler: Ruler },
): Boxes {
  const aside = nests.filter(isAside)
  const tokens = aside.map((nest, place) => {
    const reason = asideWords(nest, words.nowMs, words.time)
    const after = place < words.said ? reason : null
    const isWanted = reason === stripWords.lookNow
    return tokenOf(specOf(nest, shapeOf(nest), { after, isWanted }), at.ruler)
  })
  const bare = aside.map((nest) => tokenOf(specOf(nest, shapeOf(nest)), at.ruler))
  let shown = tokens.length
  while (shown > 1 && tokensWidth(bare.slice(0, shown)) > share * at.roomPx) shown -= 1
  return {
    tokens: tokens.slice(0, shown),
    width: shown === 0 ? 0 : tokensWidth(tokens.slice(0, shown)) + rightMargin + gap,
    counted: aside.slice(shown),
    unsaid: aside.slice(words.said, shown),
  }
}

/** The boxes at the right end of a coming part `roomPx` wide; left edges count from the line. */
export function placeBoxes({ tokens }: Boxes, roomPx: number): readonly Placed[] {
  let left = roomPx - rightMargin - tokensWidth(tokens)
  return tokens.map((token) => {
    const placed = { ...token, left }
    left += token.width + gap
    return placed
  })
}
