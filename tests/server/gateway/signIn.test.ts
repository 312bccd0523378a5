// Signing in over the socket: what each outcome of a PIN is called, and who hears of it.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { PinOutcome } from '../../../server/gateway/ports.ts'
import { finn, House, mara, stranger, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House
let hand: RawScreen

async function handOf(device: string): Promise<RawScreen> {
  const screen = await house.screen()
  screen.send(helloOf('hand', { token: token(device) }))
  await screen.next('welcome')
  return screen
}

beforeEach(async () => {
  house = await House.open()
  hand = await handOf('d1')
})

afterEach(() => house.close())

const signIn = { type: 'signIn', person: mara, pin: '1234' }
const redeem = { type: 'redeem', person: mara, code: '12345678', pin: '1234' }

describe('a right PIN', () => {
  it('is told to every screen of the device and to no other', async () => {
    const second = await handOf('d1')
    const other = await handOf('d2')
    hand.send(signIn)
    for (const screen of [hand, second]) {
      expect(await screen.next('signedIn')).toEqual({ type: 'signedIn', people: [mara] })
    }
    expect(await other.ask({ ...signIn, person: finn })).toMatchObject({ people: [finn] })
    expect(await hand.ask({ ...signIn, person: finn })).toMatchObject({ people: [mara, finn] })
  })

  it('may be chosen with the one-time code', async () => {
    expect(await hand.ask(redeem)).toEqual({ type: 'signedIn', people: [mara] })
  })

  it('counts until the person signs out', async () => {
    await hand.ask(signIn)
    expect(await hand.ask({ type: 'signOut', person: mara })).toEqual({
      type: 'signedIn',
      people: [],
    })
  })
})

describe('any other', () => {
  it.each<[string, PinOutcome, object]>([
    ['wrong', { type: 'wrong' }, { code: 'pinWrong' }],
    ['locked', { type: 'locked', waitMs: 30_000 }, { code: 'pinLocked', waitMs: 30_000 }],
    ['the last', { type: 'unpaired' }, { code: 'notPaired' }],
  ])('that is %s is answered by name and signs nobody in', async (_what, outcome, code) => {
    const before = house.standing
    house.doorkeeper.pinOutcome = outcome
    for (const frame of [signIn, redeem]) {
      expect(await hand.ask(frame)).toEqual({ type: 'fault', ...code })
    }
    expect(house.doorkeeper.signedIn('d1')).toEqual([])
    expect(house.standing).toEqual(before)
  })

  it('of somebody unknown or removed is wrong as any other', async () => {
    await house.room.record(() => [{ type: 'PersonRemoved', v: 1, person: finn }])
    for (const person of [stranger, finn]) {
      expect(await hand.ask({ ...signIn, person })).toEqual({ type: 'fault', code: 'pinWrong' })
      expect(await hand.ask({ ...redeem, person })).toEqual({ type: 'fault', code: 'pinWrong' })
    }
  })

  it('waits while one is being checked for this device', async () => {
    let checked: () => void = () => undefined
    house.doorkeeper.holdPins = new Promise((resolve) => {
      checked = resolve
    })
    hand.send(signIn)
    expect(await hand.ask(signIn)).toEqual({ type: 'fault', code: 'busy' })
    checked()
    expect(await hand.reply()).toEqual({ type: 'signedIn', people: [mara] })
  })
})
