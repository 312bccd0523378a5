// A wall cannot write: whatever a screen that only looks sends, it is told so, and nothing moves.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { commandSchema } from '../../../shared/board/commands.ts'
import { everyCommand } from './commands.data.ts'
import { House, mara, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House

beforeEach(async () => {
  house = await House.open()
  house.doorkeeper.present.set('d1', [mara])
})

afterEach(() => house.close())

async function wallWith(parts: { token?: string }): Promise<RawScreen> {
  const wall = await house.screen()
  wall.send(helloOf('wall', parts))
  await wall.next('welcome')
  return wall
}

const timing = { notedAgoMs: 0, heardAtMs: 0 }

describe('a wall', () => {
  it.each([
    ['without a token', {}],
    ['with the token of a device', { token: token('d1') }],
    ['with a token of nobody', { token: token('x1') }],
  ])('%s cannot send any command', async (_what, parts) => {
    const wall = await wallWith(parts)
    const before = house.standing
    for (const body of everyCommand) {
      expect(commandSchema.safeParse(body).success).toBe(true)
      const command = { type: 'command', lane: 'd1', n: 1, by: mara, timing, body }
      expect(await wall.ask(command)).toEqual({ type: 'fault', code: 'readOnlyScreen' })
    }
    expect(house.standing).toEqual(before)
  })

  it('cannot sign anybody in or out', async () => {
    const wall = await wallWith({ token: token('d1') })
    const readOnly = { type: 'fault', code: 'readOnlyScreen' }
    expect(await wall.ask({ type: 'signIn', person: mara, pin: '1234' })).toEqual(readOnly)
    expect(await wall.ask({ type: 'signOut', person: mara })).toEqual(readOnly)
    const redeem = { type: 'redeem', person: mara, code: '123456', pin: '1234' }
    expect(await wall.ask(redeem)).toEqual(readOnly)
    expect(house.doorkeeper.signedIn('d1')).toEqual([mara])
  })
})
