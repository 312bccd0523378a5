// Where everything on the wall is, as the browser has drawn it, for wallMeasured.test.ts. Runs inside
// the page; judges nothing.

export type Piece = {
  readonly what: string
  readonly part: string
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}
export type Places = {
  /** Shapes and words, each once: none of these may be over another. */
  readonly pieces: readonly Piece[]
  /** Shapes that carry a state, alone. */
  readonly shapes: readonly Piece[]
  /** Words beyond the shape they stand in. */
  readonly spilt: readonly string[]
  readonly labelPx: number
  /** The smallest type of any word that is drawn. */
  readonly smallest: number
  readonly lanes: number
  readonly scrolls: boolean
}

/** Everything in one string, because a page takes a function without what stands around it. */
export function places(): Places {
  const pieceOf = (part: string) => (element: Element) => {
    const { x, y, width, height } = element.getBoundingClientRect()
    return { what: (element.textContent ?? '').trim() || part, part, x, y, width, height }
  }
  const all = (selector: string) =>
    [...document.querySelectorAll(selector)].map(pieceOf(selector)).filter(({ width }) => width > 0)
  const parts = [
    '.nest .body',
    '.mark',
    '.fence',
    '.after',
    '.tile',
    '.count > span',
    '.tick > span',
    '.end',
    '.how-late',
    '.clock',
    '.calm-words',
    '.alert',
    '.page-of',
    '.foot .item',
    '.pace > span',
    '.pace-mouth',
    '.lost-panel',
    '.dark-clock',
    '.closed-until',
  ]
  const inside = [
    ['.nest .body', '.name, .minutes, .who'],
    ['.tile', 'span'],
    ['.alert', '.headline, .under, .has-it'],
    ['.has-it', 'span'],
    ['.item', 'span'],
    ['.lost-panel', '.lost-head, .lost-line'],
  ] as const
  const spilt = inside.flatMap(([outer, inner]) =>
    [...document.querySelectorAll(outer)].flatMap((shape) => {
      const room = shape.getBoundingClientRect()
      return [...shape.querySelectorAll(inner)].flatMap((word) => {
        const range = document.createRange()
        range.selectNodeContents(word)
        const { left, right } = range.getBoundingClientRect()
        const fits = left >= room.left - 0.5 && right <= room.right + 0.5
        return fits ? [] : [`${word.textContent} in ${outer}`]
      })
    }),
  )
  const drawn = [...document.querySelectorAll('body *')].filter(
    (element) =>
      [...element.childNodes].some((node) => node.nodeType === 3 && node.nodeValue?.trim()) &&
      element.getBoundingClientRect().width > 0,
  )
  const sizes = drawn.map((element) => Number.parseFloat(getComputedStyle(element).fontSize))
  const name = document.querySelector('.name')
  const root = document.documentElement
  return {
    pieces: parts.flatMap(all),
    shapes: ['.nest .lip', '.nest .gape', '.nest .bar', '.nest .body', '.mark', '.sign'].flatMap(
      all,
    ),
    spilt,
    labelPx: name ? Number.parseFloat(getComputedStyle(name).fontSize) : 0,
    smallest: Math.min(...sizes),
    lanes: document.querySelectorAll('.lane').length,
    scrolls: root.scrollWidth > root.clientWidth || root.scrollHeight > root.clientHeight,
  }
}

/** The values of a theme as the page computes them, by name. */
export function values(names: readonly string[]): Readonly<Record<string, string>> {
  const style = getComputedStyle(document.documentElement)
  return Object.fromEntries(names.map((name) => [name, style.getPropertyValue(`--${name}`).trim()]))
}
