// The wall as it is drawn on its panel of 1920 by 1080, in every kind of room: how large, how far from
// its ground, nothing over another, nothing cut, and every state told apart without colour.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { sameFor } from '../support/measureApart.ts'
import { contrast } from '../support/measureColour.ts'
import { drawnAt, pageFaults } from '../support/measurePage.ts'
import type { Rgb } from '../support/measurePng.ts'
import { everyMark, everyState, type Scene, scenes, stateLabels } from '../views/wallScenes.ts'
import { faintWords } from './wallContrast.ts'
import { openStage, show } from './wallOnStage.ts'
import { type Piece, places, values } from './wallPlaces.ts'

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  page = await openStage(browser)
})
afterAll(() => browser.close())

/** A capital of this font is 0.691 em, measured in pixels; 47 of them are 20' at 4 m on a 43" panel. */
const capitalOfEm = 0.691
const capitalsPx = 47
/** 22' at 4 m, asked of labels in up to six lanes. */
const labelCapitalsPx = 52
const shapePx = 59
const shapeContrast = 3
/** Layout comes to fractions of a pixel. */
const hairPx = 0.5

const wordContrast = 7

const every: Readonly<Record<string, Scene>> = { ...scenes, everyState, everyMark }

const isOver = (a: Piece, b: Piece): boolean =>
  a.x + a.width > b.x + hairPx &&
  b.x + b.width > a.x + hairPx &&
  a.y + a.height > b.y + hairPx &&
  b.y + b.height > a.y + hairPx

const overlaps = (pieces: readonly Piece[]): readonly string[] =>
  pieces.flatMap((one, at) =>
    pieces
      .slice(at + 1)
      .filter((other) => isOver(one, other))
      .map((other) => `"${one.what}" (${one.part}) over "${other.what}" (${other.part})`),
  )

const outside = (pieces: readonly Piece[]): readonly string[] =>
  pieces
    .filter(
      ({ x, y, width, height }) =>
        x < -hairPx || y < -hairPx || x + width > 1_920 + hairPx || y + height > 1_080 + hairPx,
    )
    .map(({ what }) => what)

function sceneOf(name: string): Scene {
  const scene = every[name]
  if (!scene) throw new Error(`no scene ${name}`)
  return scene
}

describe.each(Object.keys(every))('the wall, %s', (name) => {
  it('has nothing over another, nothing cut or off the page, and all of it large enough', async () => {
    await show(page, sceneOf(name))
    const { pieces, shapes, spilt, scrolls, labelPx, lanes } = await page.evaluate(places)
    expect(pieces.length).toBeGreaterThan(1)
    expect(overlaps(pieces)).toEqual([])
    expect(outside(pieces)).toEqual([])
    expect(spilt).toEqual([])
    expect(scrolls).toBe(false)
    const least = lanes <= 6 ? labelCapitalsPx : capitalsPx
    if (lanes > 0) expect(labelPx * capitalOfEm).toBeGreaterThanOrEqual(least)
    const small = shapes.filter(({ width, height }) => Math.max(width, height) < shapePx)
    expect(small.map(({ what, part }) => `${what} (${part})`)).toEqual([])
  })
})

describe('words', () => {
  // Every theme, every top, every shape that words stand on.
  const looks = [
    'trouble60',
    'rare',
    'crowdedHands',
    'lastRound60',
    'nightHelp',
    'lost60',
    'lostNight',
  ]
  it.each([...looks, 'dark'])(
    'are large enough, and stand out from what is really behind them: %s',
    async (name) => {
      await show(page, sceneOf(name))
      expect(await faintWords(page, wordContrast)).toEqual([])
      const { smallest } = await page.evaluate(places)
      expect(smallest * capitalOfEm).toBeGreaterThanOrEqual(capitalsPx)
    },
  )
})

describe('a reader that is not an eye', () => {
  /** What is measured above is not asked again. */
  const nothingMeasured = {
    contrastMin: 0,
    fontPxMin: 0,
    target: { primaryPx: 0, secondPx: 0, gapPx: 0 },
  }
  it.each(['calm24', 'trouble60', 'lost60', 'dark'])('finds no fault with %s', async (name) => {
    await show(page, sceneOf(name))
    expect(await pageFaults(page, nothingMeasured)).toEqual([])
  })
})

const rgbOf = (hex: string): Rgb => {
  const at = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16)
  return [at(1), at(3), at(5)]
}

describe('shapes', () => {
  const lanes = ['lane', 'lane-alt'] as const
  /** Each fill or outline that carries a state, on every ground it is drawn on. */
  const grounds: Readonly<Record<string, readonly string[]>> = {
    gape: [...lanes, 'late-ground', 'ground', 'lamp'],
    'gape-late': [...lanes, 'late-ground', 'ground'],
    hand: ['lamp', 'lamp-low', ...lanes, 'ground'],
    now: ['lamp', 'lamp-low', ...lanes, 'late-ground', 'ground'],
    soon: ['lamp', 'lamp-low', ...lanes, 'late-ground', 'ground'],
    mark: [...lanes, 'ground', 'asleep'],
    held: [...lanes, 'asleep'],
    'ink-soft': [...lanes, 'asleep', 'ground'],
  }
  it.each([
    ['by day', 'calm24'],
    ['at night', 'lastRound24'],
  ])('stand out from every ground they are drawn on, %s', async (_, name) => {
    await show(page, sceneOf(name))
    const names = [...new Set([...Object.keys(grounds), ...Object.values(grounds).flat()])]
    const hex = await page.evaluate(values, names)
    const faint = Object.entries(grounds).flatMap(([shape, all]) =>
      all
        .map((ground) => ({
          pair: `${shape} on ${ground}`,
          ratio: contrast(rgbOf(hex[shape] ?? ''), rgbOf(hex[ground] ?? '')),
        }))
        .filter(({ ratio }) => !(ratio >= shapeContrast)),
    )
    expect(faint).toEqual([])
  })
})

/** Where a state stands and what is said with it: what tells two alike shapes apart without colour. */
const saidWith: Partial<Record<keyof typeof stateLabels, string>> = {
  // Left of the lamp; from ten minutes on with its minutes, and so longer.
  late: 'left',
  late10: 'left, minutes',
  doubtLate: 'left, ?',
  doubtFed: '?',
  quarantined: 'last',
  held: 'reason',
  settling: 'look',
  unplanned: 'no plan',
}

describe('every two states', () => {
  it('stay apart by shape in grey and for eyes that lack a cone, or by place and words', async () => {
    await show(page, everyState)
    const states = Object.keys(stateLabels) as (keyof typeof stateLabels)[]
    const selectors = states.map((state) => `[data-testid="nest-${stateLabels[state]}"] .body`)
    const { picture, boxes } = await drawnAt(page, selectors)
    const alike = states.flatMap((one, at) =>
      states.slice(at + 1).flatMap((other, more) => {
        const [a, b] = [boxes[at], boxes[at + 1 + more]]
        if (!a || !b) throw new Error('every state is drawn')
        const who = sameFor(picture, [a, b])
        if (who.length === 0 || saidWith[one] !== saidWith[other]) return []
        return [`${one} and ${other} for ${who.join(', ')}`]
      }),
    )
    expect(alike).toEqual([])
  })

  it('would be found alike where only the label differs', async () => {
    await show(page, everyMark)
    const { picture, boxes } = await drawnAt(page, [
      '[data-testid="nest-A"] .body',
      '[data-testid="nest-E"] .body',
    ])
    const [a, b] = boxes
    if (!a || !b) throw new Error('both are drawn')
    expect(sameFor(picture, [a, b])).not.toEqual([])
  })

  it('and every two marks, by shape alone', async () => {
    await show(page, everyMark)
    const marks = ['help', 'fluids', 'droppings', 'short', 'fedTwice'] as const
    const selectors = marks.map((mark) => `[data-testid="mark-${mark}"]`)
    const { picture, boxes } = await drawnAt(page, selectors)
    const alike = marks.flatMap((one, at) =>
      marks.slice(at + 1).flatMap((other, more) => {
        const [a, b] = [boxes[at], boxes[at + 1 + more]]
        if (!a || !b) throw new Error('every mark is drawn')
        const who = sameFor(picture, [a, b])
        return who.length === 0 ? [] : [`${one} and ${other} for ${who.join(', ')}`]
      }),
    )
    expect(alike).toEqual([])
  })
})
