// The screens of a cranked house in real browsers, and the few things a finger does on them.

import type { Browser, Page } from 'playwright-core'
import { type CrankedHouse, stagePin } from './crankedHouse.ts'

export const phone = { viewport: { width: 390, height: 844 } } as const

async function opened(browser: Browser, url: string, size: { width: number; height: number }) {
  const page = await (await browser.newContext({ viewport: size })).newPage()
  page.on('pageerror', (error) => {
    throw error
  })
  await page.goto(url)
  return page
}

export async function wallOf(browser: Browser, house: CrankedHouse): Promise<Page> {
  const page = await opened(browser, `${house.origin}/wall`, { width: 1920, height: 1080 })
  await page.getByTestId('lane-1').waitFor()
  return page
}

/** A handheld, or a tablet, on which this person has signed in; their shift has begun before. */
export async function handOf(
  browser: Browser,
  house: CrankedHouse,
  person: string,
  size: { width: number; height: number } = phone.viewport,
): Promise<Page> {
  const page = await opened(browser, `${house.origin}/hand`, size)
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

/**
 * Opens a nest's own page from wherever free hands are; whoever is asked for another nest says no
 * first. An offer may come between any two taps, and then the list is gone again.
 */
export async function openNest(page: Page, label: string): Promise<void> {
  const row = page.getByTestId(`nest-${label}`)
  for (let tries = 0; tries < 10 && !(await row.isVisible()); tries += 1) {
    const way = page.getByTestId('another').or(page.getByTestId('not-this')).first()
    await way.waitFor()
    await way.click({ timeout: retryMs }).catch(() => undefined)
    await row.waitFor({ timeout: retryMs }).catch(() => undefined)
  }
  await row.click()
  await page.getByTestId('page-nest').waitFor()
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
