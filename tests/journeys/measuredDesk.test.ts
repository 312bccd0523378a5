// The desk as it is rendered, part by part: words that can be read on paper light, presses a mouse can
// hit, nothing sideways from a tablet's width up, and nothing that axe would complain of.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { nestlingRoom } from '../../demo-data/nestlingRoom.ts'
import { launchBrowser } from '../support/browser.ts'
import { mouseLimits, pageFaults, sidewaysFaults } from '../support/measurePage.ts'
import { type House, openedHouse } from './house.ts'
import { stepMaxMs } from './measuredPages.ts'

const widthsPx = [768, 1024, 1440] as const
const lead = { id: 'p2', pin: '2468' } as const

let browser: Browser
let house: House
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  page.setDefaultTimeout(stepMaxMs)
  await page.goto(`${house.origin}/${nestlingRoom.id}/desk`)
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

const faults = async (): Promise<readonly string[]> => [
  ...(await sidewaysFaults(page, widthsPx)),
  ...(await pageFaults(page, mouseLimits)),
]

describe('before anybody has signed in', () => {
  it('the name tiles', async () => {
    await page.getByTestId(`tile-${lead.id}`).waitFor()
    expect(await faults()).toEqual([])
  })

  it('the PIN', async () => {
    await page.getByTestId(`tile-${lead.id}`).click()
    await page.getByTestId('field-pin').waitFor()
    expect(await faults()).toEqual([])
  })
})

describe('for a lead', () => {
  beforeAll(async () => {
    await page.getByTestId('field-pin').fill(lead.pin)
    await page.getByTestId('enter').click()
    await page.getByTestId('desk').waitFor()
  })

  it.each(['nests', 'people', 'plans', 'room', 'journal'])('the part "%s"', async (tab) => {
    await page.getByTestId(`tab-${tab}`).click()
    await page.locator(`[data-testid="tab-${tab}"][aria-current="page"]`).waitFor()
    expect(await faults()).toEqual([])
  })

  it('one nest', async () => {
    await page.getByTestId('tab-nests').click()
    await page.locator('[data-testid^="open-"]').first().click()
    expect(await faults()).toEqual([])
  })
})
