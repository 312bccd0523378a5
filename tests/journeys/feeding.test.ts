// One true hour of the room in real browsers: two people reach for one nest, a record moves the wall, a
// server dies and comes back, a link is cut at the worst moment.

import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import {
  feedAll,
  type House,
  handOf,
  jonas,
  marit,
  offered,
  openedHouse,
  phone,
  wallOf,
} from './house.ts'
import { HeldLink } from './link.ts'

let browser: Browser
let house: House

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser.close())

beforeEach(async () => {
  house = await openedHouse()
})
afterEach(async () => {
  for (const context of browser.contexts()) await context.close()
  await house.close()
})

describe('two people on one nest', () => {
  it('gives it to one, tells the other who has it, and both see it on the wall', async () => {
    const wall = await wallOf(browser, house)
    const hands = await Promise.all(
      [marit, jonas].map(async (person) => {
        const context = await browser.newContext(phone)
        const link = await HeldLink.on(context)
        return { person, link, page: await handOf(context, house, person) }
      }),
    )
    const [label, same] = await Promise.all(hands.map(({ page }) => offered(page)))
    expect(same).toBe(label)
    // What has just come is deaf for a moment: both wait for it, so that both then press at once.
    for (const { page } of hands) await page.getByTestId('claim').click({ trial: true })
    // Neither hears of the other before having pressed, however slow one of the fingers is.
    for (const { link } of hands) link.hold()
    await Promise.all(
      hands.map(({ page }) => page.getByTestId('claim').click({ noWaitAfter: true })),
    )
    for (const { link } of hands) link.mend()

    await Promise.race(hands.map(({ page }) => page.getByTestId('page-feeding').waitFor()))
    await Promise.race(hands.map(({ page }) => page.getByTestId('notice').waitFor()))
    const feeding = await Promise.all(
      hands.map(({ page }) => page.getByTestId('page-feeding').isVisible()),
    )
    expect([...feeding].sort()).toEqual([false, true])
    const winner = hands[feeding.indexOf(true)]
    const loser = hands[feeding.indexOf(false)]
    expect(await loser?.page.getByTestId('notice').textContent()).toContain(winner?.person.name)

    const token = wall.getByTestId(`nest-${label}`)
    await expect.poll(() => token.getAttribute('data-state')).toBe('claimed')
    expect(await token.textContent()).toContain(winner?.person.name)
    expect(
      house.events('NestClaimed').filter((claim) => claim.atMs > Date.now() - 60_000),
    ).toHaveLength(1)

    if (winner) await feedAll(winner.page)
    await expect.poll(() => token.getAttribute('data-state')).toMatch(/^(fed|soon|later)$/)
  })
})

describe('a server that is killed in mid-round', () => {
  it('leaves the screens saying so, and they go on by themselves when it is back', async () => {
    const wall = await wallOf(browser, house)
    const hand = await handOf(await browser.newContext(phone), house, jonas)
    const label = await offered(hand)
    await hand.getByTestId('claim').click()
    await hand.getByTestId('page-feeding').waitFor()
    await house.strike()
    await wall.getByTestId('not-live').waitFor({ timeout: 20_000 })
    expect(await wall.getByTestId('not-live').textContent()).toMatch(/NOT LIVE/i)
    // What was seen is still reported, and waits.
    await feedAll(hand)
    const said = house.events('RoundRecorded').length

    await house.open()
    await wall.getByTestId('not-live').waitFor({ state: 'detached', timeout: 20_000 })
    const token = wall.getByTestId(`nest-${label}`)
    await expect
      .poll(() => token.getAttribute('data-state'), { timeout: 20_000 })
      .toMatch(/^(fed|soon|later)$/)
    expect(house.events('RoundRecorded')).toHaveLength(said + 1)
    await hand.getByTestId('page-next').waitFor()
    await hand.getByTestId('claim').click()
    await hand.getByTestId('page-feeding').waitFor()
  })
})

describe('a link that is lost when the record is on its way', () => {
  it('brings it once when only the answer was lost', async () => {
    const context = await browser.newContext(phone)
    const link = await HeldLink.on(context)
    const hand = await handOf(context, house, jonas)
    await hand.getByTestId('claim').click()
    await hand.getByTestId('all-ate').click()
    await hand.getByTestId('page-count').waitFor()
    const before = house.events('RoundRecorded').length
    link.deafen()
    await hand.getByTestId('save').click()
    await expect.poll(() => house.events('RoundRecorded').length).toBe(before + 1)
    expect(await hand.getByTestId('waiting').textContent()).toMatch(/1/)
    link.mend()
    await hand.getByTestId('waiting').waitFor({ state: 'detached', timeout: 30_000 })
    expect(house.events('RoundRecorded')).toHaveLength(before + 1)
  })

  it('brings it once when the record itself was held back, through a reload of the page', async () => {
    const context = await browser.newContext(phone)
    const link = await HeldLink.on(context)
    const hand = await handOf(context, house, jonas)
    await hand.getByTestId('claim').click()
    await hand.getByTestId('page-feeding').waitFor()
    const before = house.events('RoundRecorded').length
    await link.cut()
    await feedAll(hand)
    expect(await hand.getByTestId('waiting').textContent()).toMatch(/1/)
    await hand.reload()
    link.mend()
    await expect
      .poll(() => house.events('RoundRecorded').length, { timeout: 30_000 })
      .toBe(before + 1)
    await hand.getByTestId('page-next').waitFor()
    expect(house.events('RoundRecorded')).toHaveLength(before + 1)
  })
})
