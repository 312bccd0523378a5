// What a screen knows of the room and how far it may trust it: welcome, records, beats, NOT LIVE.

import { describe, expect, it } from 'vitest'
import type { PrivateId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { ana, boardAt, hashAt, record, records, roomMs, welcome } from './device.ts'
import { beat, wall } from './wall.ts'

describe('a hello', () => {
  it('says what the screen knows: nothing at first, then its epoch and version', async () => {
    const { link, timers } = wall()
    link.open()
    expect(link.lastHello()).toEqual({
      type: 'hello',
      protocol: 1,
      room: 'meadow',
      screen: 'wall',
      epoch: 0,
      version: 0,
    })
    link.say(welcome(3, { epoch: 4 }))
    link.say(record(4))
    link.cut()
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 4, version: 4 })
  })
})

describe('a screen', () => {
  it('sends nothing but its hello before it is welcomed', () => {
    const { link, watch } = wall()
    link.open()
    watch.send({ type: 'signOut', person: ana })
    expect(link.sent.map(({ type }) => type)).toEqual(['hello'])
    link.say(welcome(3))
    watch.send({ type: 'signOut', person: ana })
    expect(link.sent.map(({ type }) => type)).toEqual(['hello', 'signOut'])
  })
})

describe('a welcome', () => {
  it('brings the whole board, live', () => {
    const { link, watch } = wall()
    expect(watch.snapshot()).toMatchObject({ board: null, liveness: { status: 'connecting' } })
    link.open()
    link.say(welcome(3))
    expect(watch.snapshot()).toMatchObject({
      version: 3,
      epoch: 1,
      board: boardAt(3),
      liveness: { status: 'live' },
      roomNowMs: roomMs,
    })
  })

  it('brings the tail of what was missed', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.cut()
    await timers.pass(5_000)
    link.open()
    link.say(welcome(0, { state: { type: 'tail', records: records(3, 6) } }))
    expect(watch.snapshot()).toMatchObject({ version: 6, board: boardAt(6) })
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })

  it('may begin at the first record for a screen that knows nothing', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(0, { state: { type: 'tail', records: records(0, 2) } }))
    expect(watch.snapshot()).toMatchObject({ version: 2, board: boardAt(2) })
  })

  it('with a hole in its tail is not believed: the whole board is asked for', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.cut()
    await timers.pass(5_000)
    link.open()
    link.say(welcome(0, { state: { type: 'tail', records: records(4, 6) } }))
    expect(watch.snapshot()).toMatchObject({ version: 3, liveness: { status: 'connecting' } })
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 0, version: 0 })
  })

  it('with the tail of another epoch is not folded onto our board', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.cut()
    await timers.pass(5_000)
    link.open()
    link.say(welcome(0, { epoch: 2, state: { type: 'tail', records: records(3, 4) } }))
    expect(watch.snapshot()).toMatchObject({ epoch: 1, version: 3 })
    expect(watch.snapshot().liveness).toEqual({ status: 'connecting' })
  })

  it('that tells all from the first record replaces a board that was wrong', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3, { state: { type: 'board', version: 3, board: boardAt(2) } }))
    link.say(beat(3, { hash: hashAt(3) }))
    await timers.pass(5_000)
    link.open()
    link.say(welcome(0, { state: { type: 'tail', records: records(0, 4) } }))
    expect(watch.snapshot()).toMatchObject({ version: 4, board: boardAt(4) })
    link.cut()
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 1, version: 4 })
  })

  it('of another epoch may bring an older version', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(9))
    link.cut()
    await timers.pass(5_000)
    link.open()
    link.say(welcome(5, { epoch: 2 }))
    expect(watch.snapshot()).toMatchObject({ epoch: 2, version: 5, board: boardAt(5) })
  })

  it('below what was shown is not live, however often it comes', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(9))
    for (let round = 0; round < 3; round += 1) {
      link.cut()
      await timers.pass(5_000)
      link.open()
      link.say(welcome(8))
      expect(watch.snapshot()).toMatchObject({
        version: 9,
        liveness: { status: 'notLive', sinceMs: roomMs, why: 'behind' },
      })
      await timers.pass(5_000)
      link.open()
      expect(link.lastHello()).toMatchObject({ epoch: 0, version: 0 })
    }
    link.say(welcome(9))
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })

  it('in another protocol is refused by name', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(3, { protocol: 2 }))
    expect(watch.snapshot()).toMatchObject({
      board: null,
      liveness: { status: 'notLive', sinceMs: null, why: 'protocolOther' },
    })
  })

  it('that is refused says why, and is asked for again', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say({ type: 'fault', code: 'notPaired' })
    expect(watch.snapshot().liveness).toMatchObject({ status: 'notLive', why: 'notPaired' })
    await timers.pass(5_000)
    expect(link.isTrying).toBe(true)
    link.open()
    link.say(welcome(1))
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })
})

describe('a record', () => {
  it('moves the board by one version', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(record(4))
    expect(watch.snapshot()).toMatchObject({ version: 4, board: boardAt(4) })
  })

  it('that comes twice is taken once', () => {
    const { link, watch, complaints } = wall()
    link.open()
    link.say(welcome(3))
    link.say(record(4))
    link.say(record(4))
    link.say(record(2))
    expect(watch.snapshot()).toMatchObject({ version: 4, board: boardAt(4) })
    expect(complaints).toEqual([])
  })

  it('that leaves one out makes the screen ask for the whole board', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(record(5))
    expect(link.isOpen).toBe(false)
    expect(watch.snapshot()).toMatchObject({ version: 3, liveness: { status: 'connecting' } })
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 0, version: 0 })
  })

  it('with an event of an unknown kind makes the screen ask for the whole board', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    const unknown = { type: 'NestPainted', v: 1 } as unknown as RoomEvent
    link.say({ ...record(4), events: [unknown] })
    expect(watch.snapshot()).toMatchObject({ version: 3, board: boardAt(3) })
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 0, version: 0 })
  })

  it('before the welcome is not taken', () => {
    const { link, watch } = wall()
    link.open()
    link.say(record(1))
    link.say(beat(1))
    link.say({ type: 'answer', lane: 'd7', n: 1, answer: { status: 'applied', version: 1 } })
    expect(watch.snapshot()).toMatchObject({ board: null, liveness: { status: 'connecting' } })
    link.say(welcome(3))
    expect(watch.snapshot()).toMatchObject({ version: 3, liveness: { status: 'live' } })
  })

  it('brings the names it is the first to mention', () => {
    const { link, watch } = wall()
    const [known, added] = ['x1', 'x2'] as PrivateId[]
    if (known === undefined || added === undefined) throw new Error('two ids')
    link.open()
    link.say(welcome(3, { names: { [known]: { name: 'Ana' } } }))
    link.say({ ...record(4), names: { [added]: { name: 'Ben' } } })
    expect(watch.snapshot().names).toEqual({ x1: { name: 'Ana' }, x2: { name: 'Ben' } })
  })
})
