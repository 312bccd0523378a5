// What only a lead's handheld has, as it is rendered: moves, asking somebody, releases, mentors, and a
// call for help from the moment it comes to what became of it.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { hearingPhone } from './hearingPhone.ts'
import { type DemoPerson, type House, handOf, jonas, openedHouse } from './house.ts'
import { calledWalks, faultsAfter, handFaults, leadWalks, stepMaxMs } from './measuredPages.ts'

const lead: DemoPerson = { id: 'p2', name: 'Kwame', pin: '2468' }

let browser: Browser
let house: House
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  page = await handOf(await hearingPhone(browser), house, lead)
  page.setDefaultTimeout(stepMaxMs)
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

describe('a lead', () => {
  it.each(leadWalks)('$name', async (walk) => {
    expect(await faultsAfter(page, walk)).toEqual([])
  })
})

describe('somebody who calls for help', () => {
  it('is told that it is called, and has a page that leads there', async () => {
    const caller = await handOf(await hearingPhone(browser), house, jonas)
    caller.setDefaultTimeout(stepMaxMs)
    await caller.getByTestId('help').click()
    await caller.locator('.help.called').waitFor()
    expect(await handFaults(caller)).toEqual([])
    await caller.getByTestId('help').click()
    await caller.getByTestId('page-call').waitFor()
    expect(await handFaults(caller)).toEqual([])
  })
})

describe('the one who is called', () => {
  it.each(calledWalks)('$name', async (walk) => {
    expect(await faultsAfter(page, walk)).toEqual([])
  })
})
