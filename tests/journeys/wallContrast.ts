// The contrast of the wall's words with the pixels really behind them, between their capitals' tops and
// feet: lanes stand so close that a letter's tail reaches into its neighbour's line.

import type { Page } from 'playwright-core'
import { contrast } from '../support/measureColour.ts'
import { type Picture, pixelAt, type Rgb, readPng } from '../support/measurePng.ts'

/** Words trimmed to their capitals: their boxes are as high as a capital. */
const words =
  '.name, .minutes, .who, .after, .tile > span, .count > span, .tick > span, .end, .how-late, .clock, ' +
  '.calm-words, .headline, .under, .has-it > span, .page-of, .item > span, .pace > span, ' +
  '.lost-head, .lost-line, .dark-clock, .closed-until'

type Word = {
  readonly text: string
  readonly colour: Rgb
  readonly box: readonly [x: number, y: number, right: number, bottom: number]
}

function wordsOf(selector: string): readonly Word[] {
  return [...document.querySelectorAll(selector)].flatMap((element) => {
    const range = document.createRange()
    range.selectNodeContents(element)
    const { left, right } = range.getBoundingClientRect()
    const { top, bottom } = element.getBoundingClientRect()
    const [r = 0, g = 0, b = 0] = (getComputedStyle(element).color.match(/[\d.]+/g) ?? []).map(
      Number,
    )
    const text = (element.textContent ?? '').trim()
    return text === ''
      ? []
      : [{ text, colour: [r, g, b] as const, box: [left, top, right, bottom] }]
  })
}

async function shotWith(page: Page, css: string): Promise<Picture> {
  const style = await page.addStyleTag({ content: css })
  const picture = readPng(await page.screenshot())
  await style.evaluate((element) => element.parentNode?.removeChild(element))
  return picture
}

/** Of 765: a pixel that a letter changes by less is the blur of its edge. */
const inkMin = 160
/** A ground behind fewer of a word's pixels is the blur of a shape's edge. */
const shareMin = 0.02

function worst(
  word: Word,
  { bare, loud }: { readonly bare: Picture; readonly loud: Picture },
): number {
  const grounds = new Map<string, { ground: Rgb; n: number }>()
  let ink = 0
  const [left, top, right, bottom] = word.box.map(Math.round) as [number, number, number, number]
  for (let y = top; y < bottom; y += 1) {
    for (let x = left; x < right; x += 1) {
      const ground = pixelAt(bare, x, y)
      const seen = pixelAt(loud, x, y)
      if (ground.reduce((sum, one, at) => sum + Math.abs(one - (seen[at] ?? 0)), 0) < inkMin)
        continue
      ink += 1
      const key = ground.join()
      grounds.set(key, { ground, n: (grounds.get(key)?.n ?? 0) + 1 })
    }
  }
  const behind = [...grounds.values()].filter(({ n }) => n >= ink * shareMin)
  return Math.min(...behind.map(({ ground }) => contrast(word.colour, ground)))
}

/** Words of this page with less contrast than `least`, and how much they have. */
export async function faintWords(page: Page, least: number): Promise<readonly string[]> {
  const still = '*, ::before, ::after { transition: none; animation: none }'
  const fill = (colour: string) => `${still} * { -webkit-text-fill-color: ${colour} !important }`
  const bare = await shotWith(page, fill('transparent'))
  const loud = await shotWith(page, fill('#ff00ff'))
  const found = await page.evaluate(wordsOf, words)
  return found
    .map((word) => ({ text: word.text, ratio: worst(word, { bare, loud }) }))
    .filter(({ ratio }) => !(ratio >= least && Number.isFinite(ratio)))
    .map(({ text, ratio }) => `"${text}" has a contrast of ${ratio.toFixed(2)}`)
}
