// Every page of the desk as it is rendered: contrast, size of type, presses for a mouse, axe, and no
// page wider than its window from a phone up.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { mouseLimits, pageFaults, sidewaysFaults } from '../support/measurePage.ts'
import { deskOf, odile, openedDesk } from './deskPage.ts'
import { type House, openedHouse } from './house.ts'

const widthsPx = [360, 390, 768, 1_024, 1_440] as const

let browser: Browser
let house: House
let desk: Page

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  desk = await deskOf(browser, house, odile)
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

async function faultsOf(page: Page): Promise<readonly string[]> {
  return [...(await pageFaults(page, mouseLimits)), ...(await sidewaysFaults(page, widthsPx))]
}

/** What is pressed, in order, from the first tab; each a test id, or the first of a selector. */
const walks: readonly { readonly name: string; readonly way: readonly string[] }[] = [
  { name: 'the table of nests', way: [] },
  { name: 'the nests in hands', way: ['filter-hands'] },
  { name: 'a nest', way: ['open-K'] },
  { name: 'whom to ask', way: ['open-K', 'ask'] },
  { name: 'a hold', way: ['open-K', 'hold'] },
  { name: 'a nest’s new place', way: ['open-K', 'move-nest'] },
  { name: 'a bird’s new place', way: ['open-K', '[data-testid^="move-b"]'] },
  { name: 'a correction', way: ['open-K', '[data-testid^="correct-"]'] },
  { name: 'another nest', way: ['open-K', '[data-testid^="other-nest-"]'] },
  { name: 'a record taken back', way: ['open-K', '[data-testid^="take-back-"]'] },
  { name: 'a nest on hold', way: ['open-V', 'lift'] },
  { name: 'an arrival', way: ['open-Y', 'release'] },
  { name: 'the people', way: ['tab-people'] },
  { name: 'a new person', way: ['tab-people', 'add-person'] },
  { name: 'sign-offs', way: ['tab-people', 'change-p4'] },
  { name: 'a mentor', way: ['tab-people', 'mentor-p5'] },
  { name: 'a person leaving', way: ['tab-people', 'remove-p4'] },
  { name: 'a code', way: ['tab-people', 'code-p4', '[data-testid="code"]'] },
  { name: 'the care plans', way: ['tab-plans'] },
  { name: 'a new care plan', way: ['tab-plans', 'add-plan'] },
  { name: 'the room', way: ['tab-room'] },
  { name: 'a new brood', way: ['tab-room', 'admit'] },
  { name: 'the journal', way: ['tab-journal', '[data-testid^="record-"]'] },
]

describe('the name tiles', () => {
  it('are readable, and so is the PIN', async () => {
    const page = await openedDesk(browser, house)
    expect(await faultsOf(page)).toEqual([])
    await page.getByTestId('tile-p1').click()
    await page.getByTestId('form-sign-in').waitFor()
    expect(await faultsOf(page)).toEqual([])
  })
})

describe('the desk', () => {
  it.each(walks)('$name', async ({ way }) => {
    await desk.getByTestId('tab-nests').click()
    await desk.getByTestId('filter-all').click()
    for (const step of way) {
      await (step.startsWith('[') ? desk.locator(step).first() : desk.getByTestId(step)).click()
    }
    expect(await faultsOf(desk)).toEqual([])
  })
})
