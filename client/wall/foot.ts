// The first row of the foot: how many are here, then only what the strip has no room for, as far as
// the row goes. It names nobody for being idle.

import type { InstantMs } from '../../shared/base/values.ts'
import type { WallNest } from '../../shared/views/wallNest.ts'
import type { Away, WallView } from '../../shared/views/wallView.ts'
import { formerHelper } from '../ui/words.ts'
import { page, textPx } from './frame.ts'
import { type WidthOf, weight } from './measure.ts'
import { asideWords } from './stripAside.ts'
import { handsName } from './stripLamp.ts'
import { footWords } from './words.ts'

/** Full: has a nest. Away: dotted. Plain: words. */
export type FootItem = {
  readonly key: string
  readonly is: 'plain' | 'hands' | 'asked' | 'away' | 'doubt'
  readonly text: string
}
export type FootRow = { readonly items: readonly FootItem[]; readonly rest: string | null }

const side = 24
export const footGap = 24
/** Round ends, and the mouth before a doubt. */
const around: Readonly<Record<FootItem['is'], number>> = {
  plain: 0,
  hands: 64,
  asked: 64,
  away: 64,
  doubt: 108,
}

export type FootInput = {
  readonly view: WallView
  /** Names no bar has room for, and boxes without their reason. */
  readonly unnamed: readonly WallNest[]
  readonly unsaid: readonly WallNest[]
  readonly nowMs: InstantMs
  readonly time: (atMs: InstantMs) => string
  readonly widthOf: WidthOf
}

function awayItem(away: Away, time: FootInput['time']): FootItem {
  const { person, name, backAtMs, isUnheard } = away
  if (isUnheard) return { key: person, is: 'away', text: footWords.unheard(name ?? formerHelper) }
  const back = backAtMs === null ? null : time(backAtMs)
  return { key: person, is: 'away', text: footWords.back(name ?? formerHelper, back) }
}

function itemsOf({ view, unnamed, unsaid, nowMs, time }: FootInput): readonly FootItem[] {
  const doubted = view.lanes
    .flatMap(({ nests }) => nests)
    .filter(({ doubt, isFedTwice }) => doubt !== null && !isFedTwice)
  return [
    { key: 'here', is: 'plain', text: footWords.here(view.counts.here, view.counts.free) },
    ...unnamed.map((nest): FootItem => {
      const is = nest.state.type === 'claimed' ? 'hands' : 'asked'
      return { key: nest.nest, is, text: footWords.why(nest.label, handsName(nest)) }
    }),
    ...view.away.map((away) => awayItem(away, time)),
    ...doubted.map(({ nest, label, doubt }): FootItem => {
      const at = time(doubt?.aboutAtMs ?? nowMs)
      return { key: `doubt ${nest}`, is: 'doubt', text: footWords.perhapsFed(label, at) }
    }),
    ...unsaid.map((nest): FootItem => {
      const text = footWords.why(nest.label, asideWords(nest, nowMs, time))
      return { key: nest.nest, is: 'plain', text }
    }),
  ]
}

const isAway = ({ is }: FootItem): boolean => is === 'away'

/** The row, and a count of people away it has no room for. */
export function footRow(input: FootInput): FootRow {
  const width = (text: string) => input.widthOf(text, { px: textPx, weight: weight.strong })
  const items = itemsOf(input)
  const restPx = width(footWords.moreAway(9, true)) + footGap
  let used = 0
  const shown: FootItem[] = []
  for (const [at, item] of items.entries()) {
    const next = used + (at > 0 ? footGap : 0) + width(item.text) + around[item.is]
    const needsRest = items.slice(at + 1).some(isAway)
    if (next + (needsRest ? restPx : 0) > page.width - 2 * side) break
    shown.push(item)
    used = next
  }
  // A shape that is on the strip anyway is not counted again; a person who is away is.
  const away = items.slice(shown.length).filter(isAway).length
  return { items: shown, rest: away > 0 ? footWords.moreAway(away, shown.some(isAway)) : null }
}
