// The mark of each screen's tab, from a built server: a file of our own, for the pages' security policy
// lets no data: address in.

import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { nestlingRoom } from '../../demo-data/nestlingRoom.ts'
import { type House, openedHouse } from './house.ts'

let house: House

beforeAll(async () => {
  house = await openedHouse()
})
afterAll(() => house.close())

async function iconOf(screen: string): Promise<string | undefined> {
  const page = await (await fetch(`${house.origin}/${nestlingRoom.id}/${screen}`)).text()
  const link = /<link [^>]*rel="icon"[^>]*>/.exec(page)?.[0] ?? ''
  return /href="([^"]+)"/.exec(link)?.[1]
}

describe('a screen’s icon', () => {
  it('is one drawing, served to the wall and to the handheld as a built asset', async () => {
    const address = await iconOf('wall')
    expect(address).toMatch(/^\/assets\/icon-[^/]+\.svg$/)
    expect(await iconOf('hand')).toBe(address)
    const answer = await fetch(`${house.origin}${address}`)
    expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'image/svg+xml'])
    expect(await answer.text()).toContain('<svg')
  })
})
