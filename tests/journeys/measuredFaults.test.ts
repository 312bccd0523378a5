// The measuring itself, on small pages of our own: a sound page has no faults, and each fault that is
// planted in it is found and named. Without this a measure that sees nothing would pass everywhere.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { sameFor } from '../support/measureApart.ts'
import { contrast } from '../support/measureColour.ts'
import { drawnAt, gloveLimits, pageFaults, sidewaysFaults } from '../support/measurePage.ts'

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  page = await browser.newPage({ viewport: { width: 390, height: 600 } })
})
afterAll(() => browser.close())

/** What is planted comes after it, and wins. */
const styles = `
  * { margin: 0; box-sizing: border-box }
  body { background: #12110e; color: #f6f0e2; font: 20px sans-serif; min-height: 100vh }
  button { display: block; width: 300px; height: 96px; font: inherit; background: #211e18; color: #f6f0e2 }
  button + button { margin-top: 19px }
  button.primary { height: 130px; background: #7cc8f5; color: #08202e }
  svg { display: block; width: 300px; height: 120px }
  .mouth { position: relative }
  .mouth b { position: absolute; left: 120px; top: 40px; font-size: 40px; color: #1a1206 }
`
const sound = `
  <h1 id="title">Feeding nest F</h1>
  <div class="mouth"><svg viewBox="0 0 300 120" aria-hidden="true"><ellipse cx="150" cy="60" rx="150" ry="60" fill="#ffd447"/></svg><b>AG</b></div>
  <button data-testid="save" class="primary">Save</button>
  <button data-testid="more">More</button>
  <button data-testid="back">Back</button>`

async function put(css: string, body = sound): Promise<void> {
  await page.setContent(
    `<!doctype html><html lang="en"><head><title>A page</title><style>${styles}${css}</style></head><body><main>${body}</main></body></html>`,
  )
}

async function faultsWith(css: string, body = sound): Promise<readonly string[]> {
  await put(css, body)
  return pageFaults(page, gloveLimits)
}

describe('a sound page', () => {
  it('has no faults', async () => {
    expect(await faultsWith('')).toEqual([])
    expect(await sidewaysFaults(page, [360, 1024])).toEqual([])
  })

  it('may hold words for screen readers alone, and words that are folded away', async () => {
    const unseen = 'position:absolute;width:1px;height:1px;overflow:hidden;white-space:nowrap'
    const more = `<p style="${unseen}">Six nests follow</p><details><summary style="display:block;height:96px;margin-top:19px">More</summary><p>Off shift: nobody</p></details>`
    expect(await faultsWith('', `${sound}${more}`)).toEqual([])
  })
})

describe('a planted fault', () => {
  it.each([
    ['pale words', '#title { color: #857e6d }', /^"Feeding nest F" .* contrast of 4\.\d\d/],
    ['words made pale by opacity', '#title { opacity: 0.5 }', /^"Feeding nest F" .* contrast of/],
    ['words that the shape behind them drowns', '.mouth ellipse { fill: #4a3c10 }', /^"AG" .* con/],
    [
      'words that half leave their shape',
      '.mouth b { left: 10px; top: 0 }',
      /^"AG" .* contrast of 1\./,
    ],
    ['words behind something', '.mouth b { z-index: -1 }', /^"AG" .* cannot be seen/],
    ['small words', '#title { font-size: 15px }', /^"Feeding nest F" .* is 15 px/],
    ['a low primary press', '.primary { height: 120px !important }', /^save is 300 by 120/],
    ['a narrow press', '[data-testid=back] { width: 90px }', /^back is 90 by 96/],
    [
      'presses too near',
      'button + button { margin-top: 16px }',
      /^more and back are 16\.0 px apart/,
    ],
    [
      'words that leave their press',
      '[data-testid=back] { width: 96px; font-size: 60px }',
      /^"Back" .* leaves its press/,
    ],
    ['a primary press to scroll for', '.mouth { margin-top: 400px }', /^save is below the screen/],
  ])('is found: %s', async (_, css, fault) => {
    const faults = await faultsWith(css)
    expect(faults.filter((one) => fault.test(one))).not.toEqual([])
  })

  it('is found by axe: a press without a name', async () => {
    const faults = await faultsWith('', `${sound}<button></button>`)
    expect(faults.join()).toContain('axe button-name')
  })

  it('is found at the width at which it happens: words over the edge', async () => {
    await put('#title { width: 380px }')
    const faults = await sidewaysFaults(page, [360, 390])
    expect(faults).toContain('at 360 px: h1 is over the edge')
    expect(faults.filter((fault) => fault.startsWith('at 390'))).toEqual([])
  })
})

describe('two drawn things', () => {
  const boxes = (one: string, other: string) =>
    `<svg viewBox="0 0 120 60" aria-hidden="true" style="width:240px;height:120px"><g id="one">${one}</g><g id="other" transform="translate(60 0)">${other}</g></svg>`
  const square = (fill: string) => `<rect x="5" y="5" width="50" height="50" fill="${fill}"/>`
  const disc = (fill: string) => `<circle cx="30" cy="30" r="25" fill="${fill}"/>`
  const sameOf = async (one: string, other: string) => {
    await put('', boxes(one, other))
    const { picture, boxes: found } = await drawnAt(page, ['#one', '#other'])
    const [first, second] = found
    return first && second ? sameFor(picture, [first, second]) : ['no boxes']
  }

  it('of one shape and two lights stay apart for everybody', async () => {
    expect(await sameOf(square('#ffd447'), square('#3a3a3a'))).toEqual([])
  })

  it('of one colour stay apart by their shape', async () => {
    expect(await sameOf(square('#ffd447'), disc('#ffd447'))).toEqual([])
  })

  it('of one shape, red and green of one light, are the same without colour and for red-green eyes', async () => {
    const same = await sameOf(square('#d1503c'), square('#7f7f1f'))
    expect(same).toContain('grey')
    expect(same).toContain('deutan')
    expect(same).not.toContain('tritan')
  })
})

describe('contrast', () => {
  it('is 21 between black and white, and 1 of a colour with itself', () => {
    // WCAG 2.2, definition of contrast ratio: it runs from 1 to 21.
    expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 5)
    expect(contrast([18, 17, 14], [18, 17, 14])).toBe(1)
  })
})
