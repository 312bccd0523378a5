// The screens of the scripted hour: one wall, three handhelds on wires with a hand on them, a tablet that
// the lead shares with a mentor and her trainee, and the desk. What is done on them is in the hour's parts.

import type { Browser, BrowserContext, Page } from 'playwright-core'
import { expect } from 'vitest'
import type { PersonId } from '../../shared/base/values.ts'
import type { EventType } from '../../shared/board/events.ts'
import { CrankedHouse, stagePin } from './crankedHouse.ts'
import { handIn, openedIn, phone, type Size, signIn, tap, wallOf } from './crankedPages.ts'
import { hearsAtOnce } from './hearingPhone.ts'
import { ana, ben, cleo, hourStage, kwame, mara, tomas } from './hourStage.ts'
import { HeldLink } from './link.ts'

export type Hour = {
  readonly house: CrankedHouse
  readonly wall: Page
  readonly ana: Page
  readonly ben: Page
  readonly mara: Page
  readonly tablet: Page
  readonly desk: Page
  readonly links: { readonly ben: HeldLink; readonly mara: HeldLink; readonly tablet: HeldLink }
}

/** Something that is not there by then will not come, on a busy machine either. */
const stepMaxMs = 20_000

export async function openHour(browser: Browser): Promise<Hour> {
  const house = await CrankedHouse.open(hourStage)
  const wired = async (size: Size = phone.viewport) => {
    const context = await browser.newContext({ viewport: size })
    await context.addInitScript({ content: hearsAtOnce })
    return { context, link: await HeldLink.on(context) }
  }
  const [ofAna, ofBen, ofMara] = [await wired(), await wired(), await wired()]
  const shared = await wired({ width: 1180, height: 820 })
  const hour = {
    ...{ house, wall: await wallOf(browser, house) },
    ana: await handIn(ofAna.context, house, ana),
    ben: await handIn(ofBen.context, house, ben),
    mara: await handIn(ofMara.context, house, mara),
    tablet: await handIn(shared.context, house, cleo),
    desk: await deskIn(await browser.newContext({ viewport: { width: 1440, height: 900 } }), house),
    links: { ben: ofBen.link, mara: ofMara.link, tablet: shared.link },
  }
  for (const context of browser.contexts()) context.setDefaultTimeout(stepMaxMs)
  for (const person of [tomas, kwame]) {
    await tap(hour.tablet, 'who')
    await signIn(hour.tablet, person)
    await serves(hour.tablet, person)
  }
  return hour
}

async function deskIn(context: BrowserContext, house: CrankedHouse): Promise<Page> {
  const page = await openedIn(context, `${house.origin}/desk`)
  await tap(page, `tile-${kwame}`)
  await page.getByTestId('field-pin').fill(stagePin)
  await tap(page, 'enter')
  await page.getByTestId('desk').waitFor()
  return page
}

/** Waits until the row of names shows whom the tablet serves. */
const serves = (tablet: Page, person: PersonId): Promise<void> =>
  tablet.locator(`[data-testid="served-${person}"][aria-pressed="true"]`).waitFor()

/** One tap: everybody here has entered their PIN before. */
export async function turnTo({ tablet }: Hour, person: PersonId): Promise<void> {
  await tap(tablet, `served-${person}`)
  await serves(tablet, person)
}

/** Waits until the page says it there. */
export const says = (page: Page, id: string, words: string | RegExp): Promise<void> =>
  page.getByTestId(id).filter({ hasText: words }).first().waitFor()

export const isThere = (page: Page, id: string): Promise<void> => page.getByTestId(id).waitFor()

export const isGone = (page: Page, id: string): Promise<void> =>
  page.getByTestId(id).waitFor({ state: 'detached' })

/** Waits until the journal holds so many of them. */
export async function untilWritten(hour: Hour, type: EventType, count: number): Promise<void> {
  await expect.poll(() => hour.house.events(type).length, { timeout: stepMaxMs }).toBe(count)
}

/** Every handheld and the tablet. */
export const hands = ({ ana: a, ben: b, mara: m, tablet }: Hour): readonly Page[] => [
  a,
  b,
  m,
  tablet,
]
