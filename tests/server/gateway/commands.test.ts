// Commands over real sockets: taken once, answered after everybody has seen the record, and refused by
// name for everything the edge looks at. What is refused leaves version, hash and lane as they were.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { FaultCode } from '../../../shared/wire/frames.ts'
import { commandsPerSecondMax, enginePayloadMaxBytes } from '../../../shared/wire/limits.ts'
import { everyCommand } from './commands.data.ts'
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
  house.doorkeeper.present.set('d1', [mara])
  hand = await handOf('d1')
})

afterEach(() => house.close())

const timing = { notedAgoMs: 0, heardAtMs: 0 }
const claim = { type: 'ClaimNest', v: 1, nest: 'n1' }
const weighed = { type: 'Weighed', v: 1, bird: 'b1', massMg: 9_000 }
const withdrawn = { type: 'Withdrawn', v: 1 }
const order = (n: number, body: unknown = weighed, parts: object = {}) => ({
  ...{ type: 'command', lane: 'd1', n, by: mara, timing, body },
  ...parts,
})
const fault = (code: FaultCode, rest: object = {}) => ({
  ...{ type: 'fault', code, lane: 'd1', n: 1 },
  ...rest,
})

describe('a command', () => {
  it('is answered after its record has gone to every screen, which all get the same', async () => {
    const wall = await house.screen()
    wall.send(helloOf('wall'))
    await wall.next('welcome')
    const version = house.standing.version + 1
    hand.send(order(1, claim))
    const answer = await hand.reply()
    expect(answer).toEqual({
      ...{ type: 'answer', lane: 'd1', n: 1 },
      answer: { status: 'applied', version },
    })
    const record = await hand.next('record')
    expect(record).toMatchObject({ version, by: mara, cause: { lane: 'd1', n: 1 } })
    expect(await wall.next('record')).toEqual(record)
  })

  it('finds its record before its answer on its own screen', async () => {
    hand.send(order(1, claim))
    await hand.reply()
    hand.frames.length = 0
    hand.send(order(2))
    await expect.poll(() => hand.frames.map(({ type }) => type)).toEqual(['record', 'answer'])
  })

  it('brings its name to the screens beside the record and never in it', async () => {
    hand.send(
      order(
        1,
        everyCommand.find(({ type }) => type === 'AddPerson'),
      ),
    )
    const record = await hand.next('record')
    expect(record.names).toEqual({ x3: { name: 'Ira' } })
    expect(JSON.stringify(record.events)).not.toContain('Ira')
  })

  it('is rejected by the rules, not the edge, when its person may not do it', async () => {
    house.doorkeeper.present.set('d1', [finn])
    const before = house.standing
    const body = everyCommand.find(({ type }) => type === 'AddPerson')
    expect(await hand.ask(order(1, body, { by: finn }))).toMatchObject({
      answer: { status: 'rejected', why: { code: 'NotAllowed', needs: 'permitHolder' } },
    })
    expect(house.standing).toEqual({ ...before, lane: 1 })
  })

  it('gets its first answer again however often it is sent, also after a restart', async () => {
    const first = await hand.ask(order(1, claim))
    const before = house.standing
    expect(await hand.ask(order(1, claim))).toEqual(first)
    await house.restart()
    const later = await handOf('d1')
    expect(await later.ask(order(1, claim))).toEqual(first)
    // The start itself is a record; the repeat is none.
    expect(house.standing.version).toBe(before.version + 1)
    expect(house.standing.lane).toBe(1)
  })

  it('beyond the next number asks for the one that is missing', async () => {
    const before = house.standing
    expect(await hand.ask(order(3))).toEqual(fault('laneGap', { n: 3, expected: 1 }))
    expect(house.standing).toEqual(before)
  })

  it('waits its turn: one in flight a lane, and the same one may be asked again meanwhile', async () => {
    const other = await handOf('d1')
    const flush = house.holdWrites()
    hand.send(order(1))
    expect(await hand.ask(order(2))).toEqual(fault('busy', { n: 2 }))
    other.send(order(1))
    // Answered at once and after the first has been read, which therefore waits for the flush.
    expect(await other.ask(order(2))).toEqual(fault('busy', { n: 2 }))
    flush()
    const answer = await hand.reply()
    expect(answer).toMatchObject({ n: 1, answer: { status: 'applied' } })
    expect(await other.reply()).toEqual(answer)
    expect(await hand.ask(order(2))).toMatchObject({ n: 2, answer: { status: 'applied' } })
  })

  it('waits its turn on a screen that came when another of the device had gone', async () => {
    const gone = await handOf('d1')
    gone.close()
    await expect.poll(() => house.socketCount).toBe(1)
    const later = await handOf('d1')
    const flush = house.holdWrites()
    hand.send(order(1))
    expect(await hand.ask(order(2))).toMatchObject({ code: 'busy' })
    expect(await later.ask(order(2))).toEqual(fault('busy', { n: 2 }))
    flush()
    expect(await hand.reply()).toMatchObject({ n: 1, answer: { status: 'applied' } })
  })

  it('goes into the lane of its own device, with or without a letter behind', async () => {
    const before = house.standing
    for (const lane of ['d2', 'd11', 'd2a']) {
      const refused = await hand.ask(order(1, weighed, { lane }))
      expect(refused).toEqual(fault('laneNotYours', { lane }))
    }
    expect(house.standing).toEqual(before)
    const own = await hand.ask(order(1, weighed, { lane: 'd1b' }))
    expect(own).toMatchObject({ lane: 'd1b', answer: { status: 'applied' } })
  })
})

describe('whose word it is', () => {
  it('is that of somebody signed in on the device, for asks', async () => {
    const before = house.standing
    for (const by of [finn, stranger]) {
      expect(await hand.ask(order(1, claim, { by }))).toEqual(fault('notSignedIn'))
    }
    await house.doorkeeper.signOut('d1', mara)
    expect(await hand.ask(order(1, claim))).toEqual(fault('notSignedIn'))
    expect(house.standing).toEqual(before)
  })

  it('may be that of somebody who has just signed out, for what they did', async () => {
    await house.doorkeeper.signOut('d1', mara)
    expect(await hand.ask(order(1))).toMatchObject({ answer: { status: 'applied' } })
    expect(await hand.ask(order(2, weighed, { by: finn }))).toEqual(fault('notSignedIn', { n: 2 }))
  })

  it('is nobody’s for a withdrawal, which keeps the lane whole', async () => {
    const before = house.standing
    expect(await hand.ask(order(1, withdrawn, { by: stranger }))).toMatchObject({
      answer: { status: 'rejected', why: { code: 'Withdrawn' } },
    })
    expect(house.standing).toEqual({ ...before, lane: 1 })
  })
})

describe('a message that is not taken', () => {
  it('is malformed, whatever was sent with it', async () => {
    const before = house.standing
    const bad = [
      order(0),
      order(1.5),
      order(1, { ...weighed, massMg: -1 }),
      order(1, { ...weighed, v: 2 }),
      order(1, { ...weighed, note: 'extra' }),
      order(1, { type: 'DropEverything', v: 1 }),
      order(1, weighed, { timing: { notedAgoMs: -1, heardAtMs: 0 } }),
      { ...order(1), admin: true },
    ]
    for (const frame of bad) expect(await hand.ask(frame)).toMatchObject({ code: 'malformed' })
    hand.socket.emit('m', order(1))
    expect(await hand.reply()).toEqual({ type: 'fault', code: 'malformed' })
    hand.socket.emit('m', Buffer.from('{}'))
    expect(await hand.reply()).toEqual({ type: 'fault', code: 'malformed' })
    hand.socket.emit('m', JSON.stringify(order(1)), () => undefined)
    expect(await hand.reply()).toEqual({ type: 'fault', code: 'malformed' })
    hand.socket.emit('other', JSON.stringify(order(1)))
    expect(await hand.reply()).toEqual({ type: 'fault', code: 'malformed' })
    expect(house.standing).toEqual(before)
  })

  it('is too large above sixteen kilobytes, and ends the link above the engine’s limit', async () => {
    const before = house.standing
    hand.sendText(JSON.stringify(order(1)).padEnd(20_000))
    expect(await hand.reply()).toEqual({ type: 'fault', code: 'tooLarge' })
    hand.sendText(' '.repeat(enginePayloadMaxBytes + 1))
    expect(await hand.closed()).toBe(true)
    expect(house.standing).toEqual(before)
  })

  it('is one too many when a device sends over a hundred in a second, on all its screens', async () => {
    const other = await handOf('d1')
    // The two hellos were sent before the device was known.
    for (let sent = 0; sent < commandsPerSecondMax; sent += 1) {
      const screen = sent % 2 === 0 ? hand : other
      expect(await screen.ask(order(9))).toMatchObject({ code: 'laneGap' })
    }
    const before = house.standing
    expect(await hand.ask(order(1))).toEqual({ type: 'fault', code: 'tooMany' })
    expect(await other.ask(order(1))).toEqual({ type: 'fault', code: 'tooMany' })
    expect(house.standing).toEqual(before)
    await house.timers.pass(1_000)
    expect(await hand.ask(order(1))).toMatchObject({ answer: { status: 'applied' } })
  })

  it('is not acknowledged when the journal fails, and every beat says so', async () => {
    const before = house.standing
    house.disk.failChanges('ENOSPC')
    expect(await hand.ask(order(1))).toEqual(fault('journalFailing'))
    expect(await hand.ask(order(1))).toEqual(fault('journalFailing'))
    expect(house.standing).toEqual(before)
    await house.timers.pass(2_000)
    expect((await hand.next('beat')).house).toMatchObject([{ type: 'journalFailing' }])
    house.disk.heal()
  })
})
