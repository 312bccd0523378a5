// The handheld's pages around a record that is wrong or doubted, as they are rendered: mending it, saying
// that it was another nest, and a nest that was recorded twice, where crops are looked at first.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { hearingPhone } from './hearingPhone.ts'
import { feedAll, type House, handOf, jonas, offered, openedHouse } from './house.ts'
import { faultsAfter, handFaults, stepMaxMs } from './measuredPages.ts'

let browser: Browser
let house: House
let page: Page
/** The nest that was just fed. */
let label: string

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  page = await handOf(await hearingPhone(browser), house, jonas)
  page.setDefaultTimeout(stepMaxMs)
  label = await offered(page)
  await page.getByTestId('claim').click()
  await feedAll(page)
  await page.getByTestId('page-next').waitFor()
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

const nestOf = () => ['another', `nest-${label}`] as const
const mend = '[data-testid^="mend-"]'

describe('a nest that was just fed', () => {
  it.each([
    { name: 'its page', shows: 'nest', on: [] },
    { name: 'why it needs an extra feed', shows: 'extra', on: ['extra'] },
    { name: 'what can be mended', shows: 'mend', on: [mend] },
    { name: 'which nest it was', shows: 'other-nest', on: [mend, 'other-nest'] },
  ])('$name', async ({ name, shows, on }) => {
    expect(await faultsAfter(page, { name, shows, way: [...nestOf(), ...on] })).toEqual([])
  })
})

describe('a nest that was recorded twice', () => {
  it('says so on its page', async () => {
    await page.reload()
    for (const step of [...nestOf(), 'already-fed', 'ago-5', 'all-ate', 'save-said']) {
      await page.getByTestId(step).click()
    }
    await expect.poll(() => house.events('DoubtRaised').length).toBeGreaterThan(0)
    const walk = { name: 'the nest', shows: 'nest', way: nestOf() }
    expect(await faultsAfter(page, walk)).toEqual([])
    expect(await page.getByTestId('twice').first().isVisible()).toBe(true)
  })

  it('has its crops looked at before anything else', async () => {
    await page.getByTestId('extra').click()
    await page.locator('[data-testid^="extra-"]').first().click()
    await page.getByTestId('page-feeding').waitFor()
    await page.getByTestId('all-empty').waitFor()
    expect(await handFaults(page)).toEqual([])
  })
})
