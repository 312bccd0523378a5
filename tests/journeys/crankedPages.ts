// The screens of a cranked house in real browsers, and the few things a finger does on them.

import type { Browser, BrowserContext, Page } from 'playwright-core'
import { type CrankedHouse, stagePin } from './crankedHouse.ts'
import { hearsAtOnce } from './hearingPhone.ts'

export const phone = { viewport: { width: 390, height: 844 } } as const

export type Size = { readonly width: number; readonly height: number }

/** A page that fails the test which uses it when a script of its own breaks. */
export async function openedIn(context: BrowserContext, url: string): Promise<Page> {
  const page = await context.newPage()
  page.on('pageerror', (error) => {
    throw error
  })
  await page.goto(url)
  return page
}

export async function wallOf(browser: Browser, house: CrankedHouse): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } })
  const page = await openedIn(context, `${house.origin}/wall`)
  await page.getByTestId('lane-1').waitFor()
  return page
}

/** A handheld, or a tablet, on which this person has signed in; their shift has begun before. */
export async function handOf(
  browser: Browser,
  house: CrankedHouse,
  person: string,
  size: Size = phone.viewport,
): Promise<Page> {
  const context = await browser.newContext({ viewport: size })
  await context.addInitScript({ content: hearsAtOnce })
  return handIn(context, house, person)
}

/** The same in a context of the test's own. */
export async function handIn(
  context: BrowserContext,
  house: CrankedHouse,
  person: string,
): Promise<Page> {
  const page = await openedIn(context, `${house.origin}/hand`)
  await signIn(page, person)
  return page
}

export async function signIn(page: Page, person: string): Promise<void> {
  await page.getByTestId(`tile-${person}`).click()
  for (const figure of stagePin) await page.getByTestId(`key-${figure}`).click()
  await page.getByTestId('enter').click()
  await page.getByTestId('who').waitFor()
}

export const tap = (page: Page, id: string): Promise<void> => page.getByTestId(id).click()

/** As long as a page may take to change under a finger before the finger tries again. */
const retryMs = 2_000

/** From another nest's page it is the way back. */
const waysToTheList = (page: Page) =>
  page.getByTestId('another').or(page.getByTestId('not-this')).or(page.getByTestId('back')).first()

/**
 * Opens a nest's own page from wherever free hands are; whoever is asked for another nest says no
 * first. An offer may come between any two taps, and then the list is gone again.
 */
export async function openNest(page: Page, label: string): Promise<void> {
  const row = page.getByTestId(`nest-${label}`)
  for (let tries = 0; tries < 10 && !(await row.isVisible()); tries += 1) {
    const way = waysToTheList(page)
    await way.waitFor()
    await way.click({ timeout: retryMs }).catch(() => undefined)
    await row.waitFor({ timeout: retryMs }).catch(() => undefined)
  }
  await row.click()
  await page.getByTestId('page-nest').waitFor()
}

/** From a nest's page, or the list, to what comes next. */
export async function goHome(page: Page): Promise<void> {
  const home = page.getByTestId('page-next').or(page.getByTestId('page-offer'))
  for (let tries = 0; tries < 10 && !(await home.first().isVisible()); tries += 1) {
    await page
      .getByTestId('back')
      .click({ timeout: retryMs })
      .catch(() => undefined)
  }
  await home.first().waitFor()
}

/** "All of them ate", and saved without taking another. */
export async function recordAllAte(page: Page): Promise<void> {
  await tap(page, 'all-ate')
  await page.getByTestId('page-count').waitFor()
  await tap(page, 'save')
  await page.getByTestId('page-count').waitFor({ state: 'detached' })
}

export const text = async (page: Page, id: string): Promise<string> =>
  (await page.getByTestId(id).textContent()) ?? ''
