// A handheld's page that is opened anew in the middle of a visit, by a thumb or by a newer server: what was
// tapped and not yet saved is still there.

import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { type House, handOf, jonas, openedHouse, phone } from './house.ts'

let browser: Browser
let house: House

beforeAll(async () => {
  browser = await launchBrowser()
  house = await openedHouse()
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

it('a refusal outlives a page opened anew, and is what gets recorded', async () => {
  const page = await handOf(await browser.newContext(phone), house, jonas)
  await page.getByTestId('claim').click()
  await page.getByTestId('page-feeding').waitFor()
  const bird = page.locator('.press.bird[data-testid]').first()
  const id = (await bird.getAttribute('data-testid'))?.replace('bird-', '')
  await bird.click()
  await page.getByTestId('outcome-refused').click()
  await page.getByTestId('keep').click()

  await page.reload()
  await page.getByTestId('page-feeding').waitFor()
  await expect.poll(() => page.getByTestId(`bird-${id}`).textContent()).toContain('refused')
  await page.getByTestId('all-ate').or(page.getByTestId('count')).first().click()
  await page.getByTestId('save').click()
  await page.getByTestId('page-count').waitFor({ state: 'detached' })
  const answers = () =>
    house.events('RoundRecorded').findLast(({ person }) => person === jonas.id)?.answers
  await expect.poll(() => answers()?.find((answer) => answer.bird === id)?.outcome).toBe('refused')
})
