// `npm run pictures`: the pictures of the README, taken from the running program. The demo's rooms and its
// people, ten times as fast as a day, until both rooms live; then a wall, a handheld and a desk as they are.

import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, Locator, Page } from 'playwright-core'
import { Crew } from '../../demo-data/crew/crew.ts'
import { demoRooms } from '../../demo-data/demoRooms.ts'
import { longRoom } from '../../demo-data/longRoom.ts'
import { deskOf, kwame } from '../journeys/deskPage.ts'
import { type House, handOf, jonas, openedHouse, phone } from '../journeys/house.ts'
import { launchBrowser } from '../support/browser.ts'
import { smallPng } from './smallPng.ts'

const folder = join(import.meta.dirname, '..', '..', 'docs', 'pictures')
const speed = 10
const panel = { viewport: { width: 1920, height: 1080 } } as const
/** By then somebody has a nest in hand and somebody is late, or the room does not live. */
const livesMaxMs = 120_000
/** A page has drawn its first boards by then, and what came under a press is no longer deaf. */
const restMs = 3_000

/** The whole page; what moves on it is drawn where it is going. */
async function take(page: Page, name: string): Promise<void> {
  const shot = await page.screenshot({ animations: 'disabled' })
  writeFileSync(join(folder, `${name}.png`), smallPng(shot))
  process.stdout.write(`docs/pictures/${name}.png\n`)
}

const isShown = (what: Locator): Promise<void> => what.first().waitFor({ timeout: livesMaxMs })

async function openedWall(browser: Browser, house: House, room: string): Promise<Page> {
  const page = await (await browser.newContext(panel)).newPage()
  await page.goto(`${house.origin}/${room}/wall`)
  return page
}

/** Somebody has a nest in hand, and another nest is late. */
async function wall(page: Page, name: string): Promise<void> {
  await page.bringToFront()
  await page.waitForTimeout(restMs)
  await isShown(page.locator('[data-token="bar"]'))
  await isShown(page.locator('[data-testid="late-count"].some-late'))
  await take(page, name)
}

async function handheld(browser: Browser, house: House): Promise<void> {
  const context = await browser.newContext({ ...phone, deviceScaleFactor: 2 })
  const page = await handOf(context, house, jonas)
  await isShown(page.getByTestId('next-label'))
  await page.waitForTimeout(restMs)
  await take(page, 'handheld-next')
  await page.getByTestId('claim').click()
  await isShown(page.getByTestId('page-feeding'))
  await take(page, 'handheld-feeding')
  await context.close()
}

async function desk(browser: Browser, house: House): Promise<void> {
  const page = await deskOf(browser, house, kwame)
  await page.waitForTimeout(restMs)
  await take(page, 'desk')
}

async function working(house: House): Promise<readonly Crew[]> {
  const crews = demoRooms.map(
    ({ id }) => new Crew({ origin: house.origin, room: id, speed, seed: 1 }),
  )
  for (const [at, crew] of crews.entries()) {
    await crew.enter(demoRooms[at]?.signIns ?? [])
    crew.work()
  }
  return crews
}

async function pictures(house: House, browser: Browser): Promise<void> {
  const crews = await working(house)
  await handheld(browser, house)
  await wall(await openedWall(browser, house, demoRooms[0]?.id ?? ''), 'wall')
  await wall(await openedWall(browser, house, longRoom.id), 'wall-60')
  await desk(browser, house)
  for (const crew of crews) await crew.leave()
}

mkdirSync(folder, { recursive: true })
const house = await openedHouse(speed)
const browser = await launchBrowser()
try {
  await pictures(house, browser)
} finally {
  await browser.close()
  await house.close()
}
