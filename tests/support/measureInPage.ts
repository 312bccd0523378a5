// What a page itself can tell about its words and presses: where they are, how large, of what colour.
// Runs in the browser (measureBundle.ts brings it there) and judges nothing: measurePage.ts does.

export type Box = {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export type Colour = {
  readonly r: number
  readonly g: number
  readonly b: number
  /** 1 is opaque; the opacity of everything around it is in it. */
  readonly alpha: number
}

/** A run of words on the page. */
export type Words = {
  readonly text: string
  readonly where: string
  readonly colour: Colour
  readonly fontPx: number
  /** One box a line. */
  readonly boxes: readonly Box[]
  /** The press they stand on, if any. */
  readonly press: Box | null
}

export type Target = {
  readonly where: string
  readonly kind: 'primary' | 'second'
  readonly box: Box
}

const pressed = 'button, a[href], input, select, textarea, summary, [role="button"], [role="tab"]'

const boxOf = ({ x, y, width, height }: DOMRect): Box => ({ x, y, width, height })

/** Drawn for screen readers alone, or not at all, is under two pixels wide or high. */
const isSeen = ({ width, height }: Box): boolean => width >= 2 && height >= 2

/** In a box so small that it is there for screen readers alone, or folded away. */
function isHidden(element: Element | null): boolean {
  if (!element) return false
  if (!element.checkVisibility({ visibilityProperty: true })) return true
  const clips = getComputedStyle(element).overflow !== 'visible'
  return (
    (clips && !isSeen(boxOf(element.getBoundingClientRect()))) || isHidden(element.parentElement)
  )
}

function nameOf(element: Element): string {
  const named = element.closest('[data-testid]')
  const id = named?.getAttribute('data-testid') ?? element.tagName.toLowerCase()
  return named === element ? id : `${id} ${element.className}`.trim()
}

function opacityAround(element: Element | null): number {
  if (!element) return 1
  return Number(getComputedStyle(element).opacity) * opacityAround(element.parentElement)
}

/** "rgb(1, 2, 3)" or "rgba(1, 2, 3, 0.5)", as computed styles give them. */
function colourOf(element: Element): Colour {
  const style = getComputedStyle(element)
  const text = element instanceof SVGElement ? style.fill : style.color
  const [r = 0, g = 0, b = 0, alpha = 1] = (text.match(/[\d.]+/g) ?? []).map(Number)
  return { r, g, b, alpha: alpha * opacityAround(element) }
}

function wordsOf(node: Text): readonly Words[] {
  const element = node.parentElement
  const text = node.data.trim().replaceAll(/\s+/g, ' ')
  if (!element || text === '' || isHidden(element)) return []
  const range = document.createRange()
  range.selectNodeContents(node)
  const boxes = [...range.getClientRects()].map(boxOf).filter(isSeen)
  if (boxes.length === 0) return []
  const press = element.closest(pressed)
  return [
    {
      text,
      where: nameOf(element),
      colour: colourOf(element),
      fontPx: Number.parseFloat(getComputedStyle(element).fontSize),
      boxes,
      press: press ? boxOf(press.getBoundingClientRect()) : null,
    },
  ]
}

/** All words that are drawn, in the order of the page. */
export function words(): readonly Words[] {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  const found: Words[] = []
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    found.push(...wordsOf(node as Text))
  }
  return found
}

/** Everything that can be pressed, pressable now or not. */
export function targets(): readonly Target[] {
  return [...document.querySelectorAll(pressed)]
    .filter((element) => !isHidden(element))
    .map((element) => ({
      where: nameOf(element),
      kind: element.matches('.primary') ? ('primary' as const) : ('second' as const),
      box: boxOf(element.getBoundingClientRect()),
    }))
    .filter(({ box }) => isSeen(box))
}

/** The box of the one element with this selector. Throws when there is none. */
export function boxAt(selector: string): Box {
  const element = document.querySelector(selector)
  if (!element) throw new Error(`nothing on this page is ${selector}`)
  return boxOf(element.getBoundingClientRect())
}

/** Elements that reach over an edge of the page, or that hold more than they show. */
export function sideways(): readonly string[] {
  const pageWidth = document.documentElement.clientWidth
  const all = [...document.body.querySelectorAll('*')].filter((element) =>
    isSeen(boxOf(element.getBoundingClientRect())),
  )
  const over = all.filter((element) => {
    const { left, right } = element.getBoundingClientRect()
    return left < -0.5 || right > pageWidth + 0.5
  })
  const cut = all.filter(
    (element) =>
      getComputedStyle(element).overflowX !== 'visible' &&
      element.scrollWidth > element.clientWidth + 1,
  )
  const scrolls = document.documentElement.scrollWidth > pageWidth ? ['the page scrolls'] : []
  return [
    ...scrolls,
    ...over.map((element) => `${nameOf(element)} is over the edge`),
    ...cut.map((element) => `${nameOf(element)} is cut`),
  ]
}

export const heightPx = (): number => document.documentElement.scrollHeight

const still = new CSSStyleSheet()
still.replaceSync(
  '*, ::before, ::after { transition: none !important; animation: none !important }',
)
const wordless = sheetOfWords('transparent')
/** No screen has a ground of this colour: a letter in it is seen wherever nothing covers it. */
const loud = sheetOfWords('#ff00ff')

function sheetOfWords(colour: string): CSSStyleSheet {
  const sheet = new CSSStyleSheet()
  sheet.replaceSync(
    `* { -webkit-text-fill-color: ${colour} !important; text-decoration-color: ${colour} !important }
     svg text { fill: ${colour} !important }`,
  )
  return sheet
}

let live: readonly Element[] | null = null

/** The page as it is now, in a copy that no script redraws; `thaw` brings the living one back. */
export function freeze(): void {
  live = [...document.body.children]
  document.body.replaceChildren(...live.map((element) => element.cloneNode(true)))
  document.adoptedStyleSheets = [still]
}

export function thaw(): void {
  if (live) document.body.replaceChildren(...live)
  live = null
  document.adoptedStyleSheets = []
}

/** Everything but the words: what is really behind them. */
export function hideWords(): void {
  document.adoptedStyleSheets = [still, wordless]
}

/** The words in a colour of their own: where they really are. */
export function loudWords(): void {
  document.adoptedStyleSheets = [still, loud]
}

export function showWords(): void {
  document.adoptedStyleSheets = [still]
}
