// What ends an open link: the removal of somebody who was signed in on it, and the unpairing of its device.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { heartbeatMs } from '../../../shared/wire/limits.ts'
import { finn, House, mara, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House

async function handOf(device: string) {
  const screen = await house.screen()
  screen.send(helloOf('hand', { token: token(device) }))
  return { screen, welcome: await screen.next('welcome') }
}

beforeEach(async () => {
  house = await House.open()
})

afterEach(() => house.close())

const remove = () => house.room.record(() => [{ type: 'PersonRemoved', v: 1, person: finn }])
const isOpen = (screen: RawScreen) => screen.socket.connected

describe('a removed person', () => {
  it('loses the links of every device they were signed in on, and nobody else does', async () => {
    house.doorkeeper.present.set('d1', [finn])
    house.doorkeeper.present.set('d2', [mara, finn])
    house.doorkeeper.present.set('d3', [mara])
    const [own, shared, other] = [await handOf('d1'), await handOf('d2'), await handOf('d3')]
    await remove()
    expect(await own.screen.closed()).toBe(true)
    expect(await shared.screen.closed()).toBe(true)
    await other.screen.next('record')
    expect(isOpen(other.screen)).toBe(true)
  })

  it('is signed in nowhere from the record on, though the secrets still name them', async () => {
    house.doorkeeper.present.set('d1', [mara, finn])
    const before = await handOf('d1')
    expect(before.welcome.device?.signedIn).toEqual([mara, finn])
    await remove()
    await before.screen.closed()
    expect(house.doorkeeper.signedIn('d1')).toEqual([mara, finn])
    const after = await handOf('d1')
    expect(after.welcome.device?.signedIn).toEqual([mara])
    expect(await after.screen.ask({ type: 'signOut', person: mara })).toEqual({
      ...{ type: 'signedIn', people: [] },
    })
  })
})

describe('a device that is no longer paired', () => {
  it('loses all its links at the next beat, and the others keep theirs', async () => {
    const [first, second, other] = [await handOf('d1'), await handOf('d1'), await handOf('d2')]
    house.doorkeeper.unpaired.add('d1')
    expect(isOpen(first.screen)).toBe(true)
    await house.timers.pass(heartbeatMs)
    expect(await first.screen.closed()).toBe(true)
    expect(await second.screen.closed()).toBe(true)
    await other.screen.next('beat')
    expect(isOpen(other.screen)).toBe(true)
  })
})
