// Judges a page of the handheld or the desk as it is rendered: each fault is one sentence, and a page
// without any gives an empty list. Contrast is that of the pixels really behind each letter.

import axe from 'axe-core'
import type { Page } from 'playwright-core'
import { brought, bundled } from './measureBundle.ts'
import { contrast, over } from './measureColour.ts'
import type { Box, Target, Words } from './measureInPage.ts'
import { type Picture, pixelAt, type Rgb, readPng } from './measurePng.ts'

/** What measureInPage.ts is called in the page. */
declare const measure: typeof import('./measureInPage.ts')

export type Limits = {
  readonly contrastMin: number
  readonly fontPxMin: number
  /** The least of a primary press's height and of a secondary's smaller side. */
  readonly target: { readonly primaryPx: number; readonly secondPx: number; readonly gapPx: number }
}

/** For wet gloves: 20 mm, 15 mm and 3 mm at 160 pixels an inch. */
export const gloveLimits: Limits = {
  contrastMin: 7,
  fontPxMin: 16,
  target: { primaryPx: 126, secondPx: 94, gapPx: 19 },
}

/** For a mouse at a desk: WCAG 2.2, success criterion 2.5.8. */
export const mouseLimits: Limits = {
  contrastMin: 7,
  fontPxMin: 15,
  target: { primaryPx: 24, secondPx: 24, gapPx: 0 },
}

/** Layout comes to fractions of a pixel. */
const hairPx = 0.05

let script: Promise<string> | null = null
async function withMeasure(page: Page): Promise<void> {
  script ??= bundled('tests/support/measureInPage.ts', 'measure')
  await brought(page, 'measure', await script)
}

/** A layout that fills the screen may grow with it; one that still does after this many times is let be. */
const growthsMax = 3

async function growToAll(page: Page): Promise<void> {
  for (let growth = 0; growth < growthsMax; growth += 1) {
    const heightPx = await page.evaluate(() => measure.heightPx())
    const size = page.viewportSize()
    if (!size || heightPx <= size.height) return
    await page.setViewportSize({ ...size, height: heightPx })
  }
}

/** While `look` runs the page stands still, and is as tall as all that is on it. */
async function onFrozen<Found>(page: Page, look: () => Promise<Found>): Promise<Found> {
  const size = page.viewportSize()
  if (!size) throw new Error('a page that is measured has a size')
  await withMeasure(page)
  await page.evaluate(() => measure.freeze())
  try {
    await growToAll(page)
    return await look()
  } finally {
    await page.setViewportSize(size)
    await page.evaluate(() => measure.thaw())
  }
}

/** The page without its words, and with its words in a colour that nothing else has. */
type Shots = { readonly bare: Picture; readonly loud: Picture }

async function shots(page: Page): Promise<Shots> {
  await page.evaluate(() => measure.hideWords())
  const bare = readPng(await page.screenshot())
  await page.evaluate(() => measure.loudWords())
  const loud = readPng(await page.screenshot())
  await page.evaluate(() => measure.showWords())
  return { bare, loud }
}

/** A pixel that a letter changes by less is the blur of its edge; of 765. */
const inkMin = 100
/** A ground seen behind fewer of a word's pixels is the blur of a shape's edge. */
const groundShareMin = 0.02

/** How many of the letters' pixels stand on each ground. */
function groundsOf({ boxes }: Words, { bare, loud }: Shots): ReadonlyMap<string, number> {
  const grounds = new Map<string, number>()
  for (const box of boxes) {
    for (let y = Math.floor(box.y); y < box.y + box.height; y += 1) {
      for (let x = Math.floor(box.x); x < box.x + box.width; x += 1) {
        const ground = pixelAt(bare, x, y)
        const seen = pixelAt(loud, x, y)
        const ink = ground.reduce((sum, part, at) => sum + Math.abs(part - (seen[at] ?? 0)), 0)
        if (ink < inkMin) continue
        const key = ground.join(' ')
        grounds.set(key, (grounds.get(key) ?? 0) + 1)
      }
    }
  }
  return grounds
}

/** The worst contrast of these words with what is behind them; null where no letter can be seen. */
function worstContrast(words: Words, pictures: Shots): number | null {
  const grounds = groundsOf(words, pictures)
  const all = [...grounds.values()].reduce((sum, n) => sum + n, 0)
  const { r, g, b, alpha } = words.colour
  const found = [...grounds]
    .filter(([, n]) => n >= all * groundShareMin)
    .map(([key]) => {
      const [red = 0, green = 0, blue = 0] = key.split(' ').map(Number)
      const ground: Rgb = [red, green, blue]
      return contrast(over([r, g, b], alpha, ground), ground)
    })
  return found.length === 0 ? null : Math.min(...found)
}

const isWithin = (box: Box, outer: Box): boolean =>
  box.x >= outer.x - 1 &&
  box.y >= outer.y - 1 &&
  box.x + box.width <= outer.x + outer.width + 1 &&
  box.y + box.height <= outer.y + outer.height + 1

function wordFaults(words: Words, pictures: Shots, limits: Limits): readonly string[] {
  const named = `"${words.text}" (${words.where})`
  const { press, boxes, fontPx } = words
  const ratio = worstContrast(words, pictures)
  const faults: string[] = []
  if (ratio === null) faults.push(`${named} cannot be seen`)
  else if (ratio < limits.contrastMin) faults.push(`${named} has a contrast of ${ratio.toFixed(2)}`)
  if (fontPx < limits.fontPxMin - hairPx) faults.push(`${named} is ${fontPx} px`)
  if (press && boxes.some((box) => !isWithin(box, press))) faults.push(`${named} leaves its press`)
  return faults
}

/** The way between two boxes, 0 where they touch or overlap. */
function gapPx(one: Box, other: Box): number {
  const across = Math.max(one.x - other.x - other.width, other.x - one.x - one.width, 0)
  const down = Math.max(one.y - other.y - other.height, other.y - one.y - one.height, 0)
  return Math.hypot(across, down)
}

function sizeFaults({ where, kind, box }: Target, { target }: Limits): readonly string[] {
  const px = kind === 'primary' ? box.height : Math.min(box.width, box.height)
  const least = kind === 'primary' ? target.primaryPx : target.secondPx
  if (px >= least - hairPx) return []
  const size = `${box.width.toFixed(0)} by ${box.height.toFixed(0)}`
  return [`${where} is ${size}, a ${kind} press needs ${least}`]
}

function targetFaults(targets: readonly Target[], limits: Limits): readonly string[] {
  const near = targets.flatMap((one, at) =>
    targets.slice(at + 1).flatMap((other) => {
      const gap = gapPx(one.box, other.box)
      if (gap >= limits.target.gapPx - hairPx) return []
      return [`${one.where} and ${other.where} are ${gap.toFixed(1)} px apart`]
    }),
  )
  return [...targets.flatMap((target) => sizeFaults(target, limits)), ...near]
}

/** The one thing a page is for is on the screen before anything is scrolled. */
async function reachFaults(page: Page): Promise<readonly string[]> {
  await withMeasure(page)
  await page.evaluate(() => window.scrollTo(0, 0))
  const targets = await page.evaluate(() => measure.targets())
  const height = page.viewportSize()?.height ?? 0
  return targets
    .filter(({ kind, box }) => kind === 'primary' && box.y + box.height > height + hairPx)
    .map(({ where }) => `${where} is below the screen`)
}

async function axeFaults(page: Page): Promise<readonly string[]> {
  await brought(page, 'axe', axe.source)
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof import('axe-core') }).axe.run(document, {
      resultTypes: ['violations'],
    }),
  )
  return violations.map(
    ({ id, help, nodes }) => `axe ${id}: ${help} (${nodes.map(({ target }) => target).join(', ')})`,
  )
}

/** Whether anything lies sideways at these widths; the page has its own width again afterwards. */
export async function sidewaysFaults(
  page: Page,
  widthsPx: readonly number[],
): Promise<readonly string[]> {
  const size = page.viewportSize()
  if (!size) throw new Error('a page that is measured has a size')
  await withMeasure(page)
  const faults: string[] = []
  for (const width of widthsPx) {
    await page.setViewportSize({ ...size, width })
    const found = await page.evaluate(() => measure.sideways())
    faults.push(...found.map((fault) => `at ${width} px: ${fault}`))
  }
  await page.setViewportSize(size)
  return faults
}

/** Everything that is wrong with the page as it now is, at its present size. */
export async function pageFaults(page: Page, limits: Limits): Promise<readonly string[]> {
  const reach = await reachFaults(page)
  const drawn = await onFrozen(page, async () => {
    const pictures = await shots(page)
    const words = await page.evaluate(() => measure.words())
    const targets = await page.evaluate(() => measure.targets())
    return [
      ...words.flatMap((one) => wordFaults(one, pictures, limits)),
      ...targetFaults(targets, limits),
      ...(await axeFaults(page)),
    ]
  })
  return [...reach, ...drawn]
}

/** The page's pixels without its words, and where these things are on it. */
export async function drawnAt(
  page: Page,
  selectors: readonly string[],
): Promise<{ readonly picture: Picture; readonly boxes: readonly Box[] }> {
  return onFrozen(page, async () => {
    const { bare } = await shots(page)
    const boxes: Box[] = []
    for (const selector of selectors) {
      boxes.push(await page.evaluate((one) => measure.boxAt(one), selector))
    }
    return { picture: bare, boxes }
  })
}
