// A finger that taps twice where it meant once: what the second tap lands on has not been read, and so it
// records nothing.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { type House, handOf, jonas, openedHouse, phone } from './house.ts'

let browser: Browser
let house: House
let page: Page

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
  page = await handOf(await browser.newContext(phone), house, jonas)
  await page.getByTestId('claim').click()
  await page.getByTestId('page-feeding').waitFor()
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

const recordsOf = (): number =>
  house.events('RoundRecorded').filter(({ person }) => person === jonas.id).length

describe('two taps for one', () => {
  it('on "all ate" open the count back, and say nothing of birds or door', async () => {
    const before = recordsOf()
    await page.getByTestId('all-ate').dblclick()
    await page.getByTestId('page-count').waitFor()
    // A tap that is heard at last: had the second one saved, there would be no count to leave.
    await page.getByTestId('back').click()
    await page.getByTestId('page-feeding').waitFor()
    expect(recordsOf()).toBe(before)
  })

  it('on "save" are one record, and what comes after it is untouched', async () => {
    const before = { rounds: recordsOf(), takenBack: house.events('RoundTakenBack').length }
    await page.getByTestId('count').click()
    await page.getByTestId('save-next').dblclick()
    await page.getByTestId('undo').waitFor()
    await page.getByTestId('page-feeding').waitFor()
    await page.getByTestId('aside').click()
    await page.getByTestId('page-aside').waitFor()
    expect(recordsOf()).toBe(before.rounds + 1)
    expect(house.events('RoundTakenBack').length).toBe(before.takenBack)
  })
})
