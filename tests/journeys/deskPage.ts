// The desk in a page of its own, as the journeys use it: somebody signs in on it, and its presses are
// named by test ids.

import type { Browser, Page } from 'playwright-core'
import { nestlingRoom } from '../../demo-data/nestlingRoom.ts'
import type { DemoPerson, House } from './house.ts'

export const laptop = { viewport: { width: 1440, height: 900 } } as const
export const odile: DemoPerson = { id: 'p1', name: 'Odile', pin: '1357' }
export const kwame: DemoPerson = { id: 'p2', name: 'Kwame', pin: '2468' }

/** Something that is not there by then will not come. */
const stepMaxMs = 10_000

/** The desk's name tiles; a script of its own that breaks fails the test. */
export async function openedDesk(browser: Browser, house: House): Promise<Page> {
  const page = await (await browser.newContext(laptop)).newPage()
  page.setDefaultTimeout(stepMaxMs)
  page.on('pageerror', (error) => {
    throw error
  })
  await page.goto(`${house.origin}/${nestlingRoom.id}/desk`)
  await page.getByTestId('page-sign-in').waitFor()
  return page
}

export async function deskOf(browser: Browser, house: House, person: DemoPerson): Promise<Page> {
  const page = await openedDesk(browser, house)
  await page.getByTestId(`tile-${person.id}`).click()
  await page.getByTestId('field-pin').fill(person.pin)
  await page.getByTestId('enter').click()
  await page.getByTestId('desk').waitFor()
  return page
}
