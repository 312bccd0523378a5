// The first frame on a link: who is let in, what it is told it missed, and how many there may be.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { heartbeatMs, screensMax, socketsPerDeviceMax } from '../../../shared/wire/limits.ts'
import { House, mara, token } from './house.ts'
import { helloOf } from './rawScreen.ts'

let house: House

beforeEach(async () => {
  house = await House.open()
})

afterEach(() => house.close())

const fault = (code: string) => ({ type: 'fault', code })

const weigh = async (massMg: number) => {
  await house.room.record(({ nowMs }) => [
    { type: 'Weighed', v: 1, bird: 'b1' as never, by: mara, atMs: nowMs, massMg },
  ])
}

describe('a hello', () => {
  it('of a wall is answered with the whole board, its names and nothing of a device', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall'))
    const { version, board } = house.room.durable
    expect(await wall.next('welcome')).toEqual({
      type: 'welcome',
      protocol: 1,
      epoch: 1,
      nowMs: house.room.nowMs(),
      speed: 1,
      device: null,
      laneN: null,
      names: { x1: { name: 'Mara' }, x2: { name: 'Finn' } },
      state: { type: 'board', version, board: JSON.parse(JSON.stringify(board)) },
    })
  })

  it('of a paired hand tells its device, who is signed in there, and where its lane stands', async () => {
    house.doorkeeper.present.set('d1', [mara])
    const hand = await house.screen()
    hand.send(helloOf('hand', { token: token('d1') }))
    expect(await hand.next('welcome')).toMatchObject({
      device: { id: 'd1', signedIn: [mara] },
      laneN: 0,
    })
  })

  it('that knows an earlier version gets exactly the records it missed', async () => {
    const { version } = house.room.durable
    await weigh(9_000)
    await weigh(9_100)
    const wall = await house.screen()
    wall.send(helloOf('wall', { epoch: 1, version }))
    const { state } = await wall.next('welcome')
    expect(state).toMatchObject({
      type: 'tail',
      records: [{ version: version + 1 }, { version: version + 2 }],
    })
  })

  it('that knows the present version gets no records', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall', { epoch: 1, version: house.room.durable.version }))
    expect((await wall.next('welcome')).state).toEqual({ type: 'tail', records: [] })
  })

  it.each([
    ['another epoch', { epoch: 2, version: 1 }],
    ['a version not yet reached', { epoch: 1, version: 1_000 }],
    ['nothing', { epoch: 1, version: 0 }],
  ])('that knows %s gets the board', async (_what, parts) => {
    const wall = await house.screen()
    wall.send(helloOf('wall', parts))
    expect((await wall.next('welcome')).state.type).toBe('board')
  })

  it.each([
    ['speaks another protocol', { ...helloOf('wall'), protocol: 2 }, 'protocolOther'],
    ['wants a room that is not here', helloOf('wall', { room: 'oak' }), 'roomUnknown'],
    ['brings no token', helloOf('hand'), 'notPaired'],
    ['brings a token of no device', helloOf('desk', { token: 'x'.repeat(32) }), 'notPaired'],
  ])('is refused when it %s', async (_what, hello, code) => {
    const before = house.standing
    const screen = await house.screen()
    expect(await screen.ask(hello)).toEqual(fault(code))
    expect(await screen.ask({ type: 'signOut', person: mara })).toEqual(fault('helloFirst'))
    expect(house.standing).toEqual(before)
  })

  it('is said once on a link', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall'))
    await wall.next('welcome')
    expect(await wall.ask(helloOf('wall'))).toEqual(fault('malformed'))
  })

  it('comes first', async () => {
    const screen = await house.screen()
    const withdrawn = { lane: 'd1', n: 1, by: mara, timing: { notedAgoMs: 0, heardAtMs: 0 } }
    const command = { type: 'command', ...withdrawn, body: { type: 'Withdrawn', v: 1 } }
    expect(await screen.ask(command)).toEqual(fault('helloFirst'))
  })

  it('is waited for ten seconds and no longer', async () => {
    const silent = await house.screen()
    const wall = await house.screen()
    wall.send(helloOf('wall'))
    await wall.next('welcome')
    await house.timers.pass(10_000)
    expect(await silent.closed()).toBe(true)
    expect(wall.socket.connected).toBe(true)
  })
})

describe('screens', () => {
  it('of one device are three at most, and a place is free again when one leaves', async () => {
    const screens = []
    for (let at = 0; at < socketsPerDeviceMax; at += 1) {
      const hand = await house.screen()
      hand.send(helloOf('hand', { token: token('d1') }))
      await hand.next('welcome')
      screens.push(hand)
    }
    const more = await house.screen()
    expect(await more.ask(helloOf('hand', { token: token('d1') }))).toEqual(fault('tooMany'))
    screens[0]?.close()
    await expect
      .poll(async () => {
        more.send(helloOf('hand', { token: token('d1') }))
        return Promise.race([more.next('welcome'), more.reply()])
      })
      .toMatchObject({ type: 'welcome' })
  })

  it('of one room are as many as it may have', async () => {
    const walls = await Promise.all(Array.from({ length: screensMax }, () => house.screen()))
    for (const wall of walls) wall.send(helloOf('wall'))
    await Promise.all(walls.map((wall) => wall.next('welcome')))
    const more = await house.screen()
    expect(await more.ask(helloOf('wall'))).toEqual(fault('tooMany'))
  })

  it('are told every record once, in order, from the board they were sent on', async () => {
    const walls = [await house.screen(), await house.screen()]
    for (const wall of walls) wall.send(helloOf('wall'))
    for (const wall of walls) await wall.next('welcome')
    const { version } = house.room.durable
    await Promise.all([9_000, 9_100, 9_200].map(weigh))
    for (const wall of walls) {
      const records = [
        await wall.next('record'),
        await wall.next('record'),
        await wall.next('record'),
      ]
      expect(records.map((record) => record.version)).toEqual([1, 2, 3].map((n) => version + n))
    }
  })

  it('hear a beat every two seconds, with the hash only after a change', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall'))
    await wall.next('welcome')
    const { version, hash } = house.standing
    const beat = { type: 'beat', nowMs: house.room.nowMs(), version, house: [] }
    await house.timers.pass(heartbeatMs)
    expect(await wall.next('beat')).toEqual({ ...beat, hash })
    await house.timers.pass(heartbeatMs)
    expect(await wall.next('beat')).toEqual(beat)
    await weigh(9_000)
    await house.timers.pass(heartbeatMs)
    expect(await wall.next('beat')).toMatchObject({ hash: house.standing.hash })
  })
})

describe('the handshake', () => {
  it('takes our own pages and programs, and refuses pages of anybody else', async () => {
    await house.screen({ origin: `http://localhost:${house.port}` })
    await house.screen()
    await expect(house.screen({ origin: 'http://elsewhere.example' })).rejects.toThrow()
  })

  it('is a WebSocket one or none', async () => {
    const url = `http://127.0.0.1:${house.port}/socket.io/?EIO=4&transport=polling`
    expect((await fetch(url)).status).toBe(400)
    const script = `http://127.0.0.1:${house.port}/socket.io/socket.io.js`
    expect((await fetch(script)).status).toBe(400)
  })
})
