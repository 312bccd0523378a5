// Whoever names no room chooses one: the list of rooms from a built server, read and pressed in a real
// browser.

import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoRooms } from '../../demo-data/demoRooms.ts'
import { launchBrowser } from '../support/browser.ts'
import { gloveLimits, pageFaults, sidewaysFaults } from '../support/measurePage.ts'
import { type House, openedHouse } from './house.ts'

let house: House
let browser: Browser

beforeAll(async () => {
  ;[house, browser] = await Promise.all([openedHouse(), launchBrowser()])
})
afterAll(async () => {
  await browser.close()
  await house.close()
})

async function listAt(path: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } })
  await page.goto(`${house.origin}${path}`)
  await page.getByTestId(`room-${demoRooms[0]?.id}`).waitFor()
  return page
}

describe('the list of rooms', () => {
  it('names each room and leads to every screen of it', async () => {
    const page = await listAt('/')
    for (const { id, title } of demoRooms) {
      const room = page.getByTestId(`room-${id}`)
      expect(await room.getByRole('heading').textContent()).toBe(title)
      const links = await room.getByRole('link').all()
      expect(await Promise.all(links.map((link) => link.getAttribute('href')))).toEqual([
        ...['wall', 'hand', 'desk'].map((screen) => `/${id}/${screen}`),
      ])
    }
    await page.close()
  })

  it('asks only which room where the screen is named, and opens it there', async () => {
    const page = await listAt('/wall')
    const last = demoRooms.at(-1)
    const room = page.getByTestId(`room-${last?.id}`)
    expect(await room.getByRole('link').count()).toBe(1)
    await room.getByRole('link').click()
    await page.getByTestId('lane-1').waitFor()
    expect(new URL(page.url()).pathname).toBe(`/${last?.id}/wall`)
    expect(await page.title()).toBe(last?.title)
    await page.close()
  })

  it('has no fault a measurement finds, and nothing lies sideways on it', async () => {
    const page = await listAt('/')
    expect(await pageFaults(page, gloveLimits)).toEqual([])
    expect(await sidewaysFaults(page, [360, 1024, 1920])).toEqual([])
    await page.close()
  })
})
