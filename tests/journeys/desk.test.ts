// What a lead does at the desk, in real browsers: a new person comes in by the code shown once, a record
// goes onto the nest that was really fed, a notice is read, and a refusal is said in words.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { nestlingRoom } from '../../demo-data/nestlingRoom.ts'
import { launchBrowser } from '../support/browser.ts'
import { deskOf, kwame, odile, openedDesk } from './deskPage.ts'
import { feedAll, type House, handOf, marit, offered, openedHouse, phone, wallOf } from './house.ts'

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

async function typed(page: Page, figures: string): Promise<void> {
  for (const figure of figures) await page.getByTestId(`key-${figure}`).click()
  await page.getByTestId('enter').click()
}

describe('the permit holder', () => {
  it('adds a person, who comes in on a handheld with the code the desk shows once', async () => {
    const desk = await deskOf(browser, house, odile)
    await desk.getByTestId('tab-people').click()
    await desk.getByTestId('add-person').click()
    await desk.getByTestId('field-name').fill('Imke')
    await desk.getByTestId('tick-gapeSyringe').check()
    await desk.getByTestId('add-a-person-save').click()
    const code = (await desk.getByTestId('code').textContent())?.trim() ?? ''
    expect(code).toMatch(/^\d{6,10}$/)
    const added = house.events('PersonAdded').at(-1)
    expect(added).toMatchObject({ role: 'volunteer', signOffs: ['gapeSyringe'] })

    const hand = await (await browser.newContext(phone)).newPage()
    await hand.goto(`${house.origin}/${nestlingRoom.id}/hand`)
    await hand.getByTestId(`tile-${added?.person}`).click()
    await hand.getByTestId('use-other').click()
    for (const figures of [code, '8642', '8642']) await typed(hand, figures)
    await hand.getByTestId('page-next').waitFor()
    expect(house.events('ShiftBegun').at(-1)?.person).toBe(added?.person)

    await desk.getByTestId('code-done').click()
    await desk.getByTestId('code').waitFor({ state: 'detached' })
    expect(await desk.content()).not.toContain(code)
  })
})

describe('a shift lead', () => {
  it('puts a record onto the nest that was really fed, and the wall shows it', async () => {
    const wall = await wallOf(browser, house)
    const hand = await handOf(await browser.newContext(phone), house, marit)
    const fed = await offered(hand)
    await hand.getByTestId('claim').click()
    await hand.getByTestId('page-feeding').waitFor()
    await feedAll(hand)
    const token = wall.getByTestId(`nest-${fed}`)
    await expect.poll(() => token.getAttribute('data-state')).toMatch(/^(soon|later)$/)
    const record = house.events('RoundRecorded').at(-1)

    const desk = await deskOf(browser, house, kwame)
    const waits = desk.locator(`[data-state="late"], [data-state="due"], [data-state="veryLate"]`)
    const other = (await waits.locator('.label').first().textContent())?.trim() ?? ''
    expect(other).not.toBe(fed)
    await desk.getByTestId(`open-${fed}`).click()
    await desk.getByTestId(`other-nest-${record?.no}`).click()
    await desk.getByTestId('field-toNest').selectOption({ label: other })
    await desk.getByTestId('field-reason').fill('wrong label read')
    await desk.getByTestId('other-nest-save').click()

    await expect.poll(() => token.getAttribute('data-state')).toMatch(/^(late|due|offered)$/)
    const [moved] = house.events('RoundMoved')
    expect(moved).toMatchObject({ nest: record?.nest, no: record?.no, by: kwame.id })
    expect(await desk.getByTestId(`round-${record?.no}`).textContent()).toContain(other)
    // There it stands as Marit's, with the bird of the same band.
    await desk.getByTestId('all-nests').click()
    await desk.getByTestId(`open-${other}`).click()
    expect(await desk.getByTestId(`round-${moved?.toNo}`).textContent()).toContain(marit.name)
  })

  it('reads a notice, which then is gone from the desk and stands in the journal', async () => {
    const desk = await deskOf(browser, house, kwame)
    const notice = desk.locator('[data-testid^="notice-"]').first()
    // Marit's feed took seconds: the lead is told, and nobody else.
    expect(await notice.textContent()).toContain(marit.name)
    await notice.locator('[data-testid^="read-"]').click()
    await notice.waitFor({ state: 'detached' })
    expect(house.events('NoticeSeen')).toMatchObject([{ by: kwame.id }])
    await desk.getByTestId('tab-journal').click()
    const latest = desk.locator('[data-testid^="record-"]').first()
    await expect.poll(() => latest.textContent()).toContain('A notice to the lead was read.')
  })

  it('is told in words why an ask is refused', async () => {
    const desk = await deskOf(browser, house, kwame)
    await desk.getByTestId('tab-room').click()
    await desk.getByTestId('add-incubator').click()
    await desk.getByTestId('field-label').fill('1')
    await desk.getByTestId('add-it-save').click()
    const words = await desk.getByTestId('notice').textContent()
    expect(words).toBe('Another one has this label.')
  })

  it('adds nobody: that is the permit holder’s', async () => {
    const desk = await deskOf(browser, house, kwame)
    await desk.getByTestId('tab-people').click()
    await desk.getByTestId('page-people').waitFor()
    expect(await desk.getByTestId('add-person').count()).toBe(0)
    expect(await desk.locator('[data-testid^="remove-"]').count()).toBe(0)
  })
})

describe('a wrong PIN', () => {
  it('is said, and shows nothing of the room', async () => {
    const desk = await openedDesk(browser, house)
    await desk.getByTestId('tile-p3').click()
    await desk.getByTestId('field-pin').fill('0000')
    await desk.getByTestId('enter').click()
    expect(await desk.getByTestId('notice').textContent()).toBe('Wrong PIN or code.')
    expect(await desk.getByTestId('desk').count()).toBe(0)
  })
})
