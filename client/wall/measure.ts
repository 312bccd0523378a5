// How wide words are on this page: measured once per word with the page's own font, so that a lane
// fits whatever font the screen has. The only part of the wall's layout that needs a browser.

import type { Shown } from './fit.ts'
import { chipPadding, padding, wordGap } from './fit.ts'

/** Words kept; labels, names and times of a day stay far below. Without it a month on fills memory. */
const keptMax = 5_000
const weights = { label: 660, detail: 520 } as const

export type WidthOf = (text: string, size: { px: number; weight: number }) => number

/** Measures with a canvas; called again when the page's font has arrived, because widths change then. */
export function canvasWidths(family: string): WidthOf {
  const context = document.createElement('canvas').getContext('2d')
  const kept = new Map<string, number>()
  return (text, { px, weight }) => {
    const key = `${weight} ${px} ${text}`
    const known = kept.get(key)
    if (known !== undefined) return known
    if (kept.size >= keptMax) kept.clear()
    if (context) context.font = `${weight} ${px}px ${family}`
    const width = context ? context.measureText(text).width : text.length * px * 0.6
    kept.set(key, width)
    return width
  }
}

/** The width of one token as drawn, its chip included, at these sizes of type. */
export function tokenWidth(
  { token, form }: Shown,
  sizes: { label: number; detail: number },
  widthOf: WidthOf,
): number {
  const words = (text: string) =>
    text === '' ? 0 : wordGap + widthOf(text, { px: sizes.detail, weight: weights.detail })
  const label = widthOf(token.shown, { px: sizes.label, weight: weights.label })
  const body = padding[token.kind] + label + words(form.detail)
  if (form.doubt === null) return body
  const mark = widthOf('?', { px: sizes.detail, weight: weights.label })
  return body + wordGap + chipPadding + mark + words(form.doubt)
}
