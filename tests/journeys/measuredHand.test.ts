// The handheld of a volunteer as it is rendered, page by page (measuredPages.ts has the list): what a wet
// glove can hit, what tired eyes can read, and how many presses an ordinary feed takes.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { sameFor } from '../support/measureApart.ts'
import { drawnAt } from '../support/measurePage.ts'
import { hearingPhone } from './hearingPhone.ts'
import { type House, handOf, jonas, openedHouse } from './house.ts'
import { HeldLink } from './link.ts'
import {
  faultsAfter,
  feedingWalks,
  freeWalks,
  handFaults,
  lostWalks,
  stepMaxMs,
  walked,
} from './measuredPages.ts'

let browser: Browser
let house: House
let page: Page
let link: HeldLink

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  const context = await hearingPhone(browser)
  link = await HeldLink.on(context)
  page = await handOf(context, house, jonas)
  page.setDefaultTimeout(stepMaxMs)
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

async function opened(shows: string): Promise<void> {
  await page.evaluate(() => sessionStorage.clear())
  await page.reload()
  await page.getByTestId(`page-${shows}`).waitFor()
}

describe('with free hands', () => {
  it.each(freeWalks)('$name', async (walk) => {
    expect(await faultsAfter(page, walk)).toEqual([])
  })
})

describe('with a nest in hand', () => {
  beforeAll(async () => {
    await opened('next')
    await page.getByTestId('claim').click()
    await page.getByTestId('page-feeding').waitFor()
  })

  it.each(feedingWalks)('$name', async (walk) => {
    expect(await faultsAfter(page, walk)).toEqual([])
  })

  it('an outcome that is taken and one that is not stay apart for every kind of eyes', async () => {
    await opened('feeding')
    await page.locator('.press.bird').first().click()
    await page.getByTestId('outcome-ate').click()
    const { picture, boxes } = await drawnAt(page, [
      '[data-testid="outcome-ate"]',
      '[data-testid="outcome-some"]',
    ])
    const [taken, other] = boxes
    expect(taken && other ? sameFor(picture, [taken, other]) : 'no boxes').toEqual([])
  })
})

describe('an ordinary feed', () => {
  it('takes three presses, the claim of the next nest among them', async () => {
    await opened('feeding')
    await page.getByTestId('aside').click()
    await page.getByTestId('give-back').click()
    await page.getByTestId('page-next').waitFor()
    const presses = ['claim', 'all-ate', 'save-next'] as const
    const rounds = house.events('RoundRecorded').length
    for (const press of presses) await page.getByTestId(press).click()
    await page.getByTestId('page-feeding').waitFor()
    await expect.poll(() => house.events('RoundRecorded').length).toBe(rounds + 1)
    expect(presses.length).toBeLessThanOrEqual(3)
  })

  it('leaves an undo on the page after it', async () => {
    await page.getByTestId('all-ate').click()
    await page.getByTestId('save').click()
    await page.getByTestId('undo').waitFor()
    expect(await handFaults(page)).toEqual([])
  })
})

describe('without a link', () => {
  beforeAll(async () => {
    await page.getByTestId('claim').click()
    await page.getByTestId('page-feeding').waitFor()
    await link.cut()
    await page.getByTestId('all-ate').click()
    await page.getByTestId('save').click()
    await page.locator('[data-testid="live"][data-live="lost"]').waitFor({ timeout: 30_000 })
  })

  it.each(lostWalks)('$name', async (walk) => {
    // Opened anew the page would have to find its link first: the way back is the page's own.
    for (let step = 0; step < 3 && (await page.getByTestId('back').isVisible()); step += 1) {
      await page.getByTestId('back').click()
    }
    await walked(page, walk)
    expect(await handFaults(page)).toEqual([])
  })
})
