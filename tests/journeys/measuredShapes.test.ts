// Shapes that carry meaning stay apart without colour and for eyes that lack one cone: the bands of
// birds, and a crop that is empty, good and too full, each at the size at which pages draw it.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { cropFills, cropGroups, cropWords } from '../../client/ui/cropWords.ts'
import { launchBrowser } from '../support/browser.ts'
import { sameFor } from '../support/measureApart.ts'
import { brought, bundled } from '../support/measureBundle.ts'
import { drawnAt } from '../support/measurePage.ts'

declare const drawings: typeof import('../support/measureDrawings.ts')

const bands = [
  'red',
  'blue',
  'yellow',
  'green',
  'white',
  'orange',
  'pink',
  'purple',
  'black',
  'none',
]

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  page = await browser.newPage({ viewport: { width: 600, height: 400 } })
  await page.setContent('<!doctype html><body style="background:#12110e"></body>')
  await brought(page, 'drawings', await bundled('tests/support/measureDrawings.ts', 'drawings'))
})
afterAll(() => browser.close())

/** Every two of these that somebody would take for the same. */
async function mixedUp(names: readonly string[]): Promise<readonly string[]> {
  const selectors = names.map((name) => `[data-name="${name}"] svg`)
  const { picture, boxes } = await drawnAt(page, selectors)
  return names.flatMap((name, at) =>
    names.slice(at + 1).flatMap((other, after) => {
      const [one, two] = [boxes[at], boxes[at + 1 + after]]
      const same = one && two ? sameFor(picture, [one, two]) : ['not drawn']
      return same.map((who) => `${name} and ${other}: ${who}`)
    }),
  )
}

describe('the bands', () => {
  it('stay apart, every two of them', async () => {
    await page.evaluate((names) => drawings.drawBands(names, 40), bands)
    expect(await mixedUp(bands)).toEqual([])
  })
})

describe('the crops', () => {
  it.each(cropGroups)('of a %s stay apart, every two of them', async (group) => {
    await page.evaluate((of) => drawings.drawCrops(of, 104), group)
    expect(await mixedUp(cropFills)).toEqual([])
  })

  it.each(cropGroups)('of a %s are named for those who cannot see them', async (group) => {
    await page.evaluate((of) => drawings.drawCrops(of, 104), group)
    const named = await page
      .getByRole('img')
      .evaluateAll((images) =>
        images.map(
          (image) =>
            document.getElementById(image.getAttribute('aria-labelledby') ?? '')?.textContent,
        ),
      )
    expect(named).toEqual(cropFills.map((fill) => cropWords[group][fill].title))
  })
})
