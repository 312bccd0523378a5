// Who of the room can be reached, by the links of devices they are signed in on: said once each way, as
// a record of the server's own, a minute of real time after the last word of them.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { unheardMs } from '../../../server/gateway/presence.ts'
import { finn, House, mara, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House

async function handOf(device: string): Promise<RawScreen> {
  const screen = await house.screen()
  screen.send(helloOf('hand', { token: token(device) }))
  await screen.next('welcome')
  return screen
}

beforeEach(async () => {
  house = await House.open()
  house.doorkeeper.present.set('d1', [mara])
  house.doorkeeper.present.set('d2', [finn])
})

afterEach(() => house.close())

/** Who is said to be out of reach now. */
const away = () =>
  Object.values(house.room.durable.board.people)
    .filter(({ unreachableSinceMs }) => unreachableSinceMs !== null)
    .map(({ id }) => id)

/** What was said of anybody's reach since the start, in order. */
const said = () =>
  house.room
    .lastRecords(500)
    .flatMap(({ events, cause }) => events.map((event) => ({ event, cause })))
    .flatMap(({ event, cause }) =>
      event.type === 'PersonUnreachable' || event.type === 'PersonReachable'
        ? [`${event.type} ${event.person} by ${cause.type}`]
        : [],
    )

/** The record is written in the room's own turn, which the test waits for. */
const pass = async (ms: number) => {
  await house.timers.pass(ms)
  await house.room.record(() => [])
}

describe('somebody on shift', () => {
  it('is out of reach a minute after the last link of theirs ended, and not a moment before', async () => {
    const links = [await handOf('d1'), await handOf('d1'), await handOf('d2')]
    await pass(2 * unheardMs)
    expect(said()).toEqual([])
    links[0]?.close()
    await expect.poll(() => house.socketCount).toBe(2)
    await pass(2 * unheardMs)
    expect(said()).toEqual([])
    links[1]?.close()
    await expect.poll(() => house.socketCount).toBe(1)
    await pass(unheardMs - 1)
    expect(said()).toEqual([])
    await pass(1)
    expect(away()).toEqual([mara])
    await pass(2 * unheardMs)
    expect(said()).toEqual([`PersonUnreachable ${mara} by server`])
  })

  it('is within reach again as soon as any device they are signed in on is linked', async () => {
    await pass(unheardMs)
    expect(away()).toEqual([mara, finn])
    house.doorkeeper.present.set('d3', [mara])
    await handOf('d3')
    await expect.poll(away).toEqual([finn])
    expect(said().at(-1)).toBe(`PersonReachable ${mara} by server`)
  })

  it('who comes back within the minute was never away', async () => {
    await handOf('d2')
    for (let walk = 0; walk < 3; walk += 1) {
      const link = await handOf('d1')
      link.close()
      await expect.poll(() => house.socketCount).toBe(1)
      await pass(unheardMs - 1)
    }
    expect(said()).toEqual([])
  })

  it('who signs out of a shared tablet, and is signed in nowhere else, is out of reach', async () => {
    house.doorkeeper.present.set('d1', [mara, finn])
    const tablet = await handOf('d1')
    expect(await tablet.ask({ type: 'signOut', person: finn })).toMatchObject({ people: [mara] })
    await pass(unheardMs)
    expect(away()).toEqual([finn])
    expect(await tablet.ask({ type: 'signIn', person: finn, pin: '1234' })).toMatchObject({
      people: [mara, finn],
    })
    await expect.poll(away).toEqual([])
  })

  it('is waited for a minute from the start of a server, whatever was before it', async () => {
    await handOf('d2')
    await pass(unheardMs - 1)
    await house.restart()
    await pass(unheardMs - 1)
    expect(said()).toEqual([])
    await pass(1)
    expect(away()).toEqual([mara, finn])
  })
})

describe('somebody who is not on shift', () => {
  it('is said to be neither within reach nor out of it', async () => {
    await house.room.record(({ nowMs }) => [
      { type: 'ShiftEnded', v: 1, person: mara, atMs: nowMs },
      { type: 'PersonRemoved', v: 1, person: finn },
    ])
    await pass(2 * unheardMs)
    const link = await handOf('d1')
    link.close()
    await pass(2 * unheardMs)
    expect(said()).toEqual([])
  })

  it('is waited for from when their shift begins', async () => {
    await house.room.record(({ nowMs }) => [
      { type: 'ShiftEnded', v: 1, person: mara, atMs: nowMs },
    ])
    await handOf('d2')
    await pass(2 * unheardMs)
    await house.room.record(({ nowMs }) => [
      { type: 'ShiftBegun', v: 1, person: mara, atMs: nowMs },
    ])
    await pass(unheardMs - 1)
    expect(said()).toEqual([])
    await pass(1)
    expect(away()).toEqual([mara])
  })
})

describe('a wall', () => {
  it('is nobody’s screen', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall', { token: token('d1') }))
    await wall.next('welcome')
    await pass(unheardMs)
    expect(away()).toEqual([mara, finn])
  })
})
