// A claim that ends in silence, with the room's clock cranked: first its owner is asked, and nobody is
// sent there; then whoever comes next is warned, and sees no amount before they have looked.

import type { Browser } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { launchBrowser } from '../support/browser.ts'
import { type House, handOf, jonas, marit, openedHouse, phone, wallOf } from './house.ts'

let browser: Browser
let house: House

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser.close())

// A minute of the room in a second and a half: a lease of a quarter of an hour ends within half a minute.
beforeEach(async () => {
  house = await openedHouse(40)
})
afterEach(async () => {
  for (const context of browser.contexts()) await context.close()
  await house.close()
})

it('asks its owner, then warns the next', async () => {
  const wall = await wallOf(browser, house)
  const owner = await handOf(await browser.newContext(phone), house, marit)
  await owner.getByTestId('claim').click()
  // A room that runs this fast may show another nest between a look and a tap.
  const label = (await owner.getByTestId('claim-label').textContent()) ?? ''

  const question = owner.getByTestId(`question-${label}`)
  await question.waitFor({ timeout: 45_000 })
  // The room has other people in it, and silent visits of its own.
  const claim = house.events('NestClaimed').findLast(({ person }) => person === marit.id)
  const lapsed = house.events('ClaimEnded').filter(({ how }) => how === 'lapsed')
  expect(lapsed.map(({ claimNo }) => claimNo)).toContain(claim?.claimNo)
  const raised = house.events('DoubtRaised').filter(({ no }) => no === claim?.claimNo)
  expect(raised).toMatchObject([{ nest: claim?.nest, owner: marit.id, kind: 'silent' }])
  await expect
    .poll(() => wall.getByTestId(`nest-${label}`).getAttribute('data-doubt'), { timeout: 10_000 })
    .toBe('yes')

  const next = await handOf(await browser.newContext(phone), house, jonas)
  await next.getByTestId('another').click()
  await next.getByTestId(`nest-${label}`).click()
  const warning = await next.getByTestId('perhaps-fed').textContent()
  expect(warning).toContain(marit.name)
  await next.getByTestId('look-first').click()
  await next.getByTestId('page-feeding').waitFor()
  expect(await next.getByTestId('page-feeding').textContent()).not.toMatch(/\d mL/)

  const rounds = house.events('RoundRecorded').length
  await question.getByTestId(`said-none-${label}`).click()
  await expect
    .poll(() => house.events('DoubtEnded').filter(({ no }) => no === claim?.claimNo))
    .toMatchObject([{ how: 'said', said: 'none' }])
  expect(house.events('RoundRecorded')).toHaveLength(rounds)
  await expect.poll(() => wall.getByTestId(`nest-${label}`).getAttribute('data-doubt')).toBeNull()
})
