// How wide words are on this page: measured once per word with the page's own font, so that the strip
// fits whatever font the screen has. The only part of the wall's layout that needs a browser.

/** Words kept; labels, names and times of a day stay far below. Without it a month on fills memory. */
const keptMax = 5_000
export const weight = { text: 520, strong: 620, label: 660 } as const

export type Type = { readonly px: number; readonly weight: number }
export type WidthOf = (text: string, type: Type) => number

/** Measures with a canvas; made again when the page's font has arrived, because widths change then. */
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
