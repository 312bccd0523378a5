// What a screen knows of the room and how far it may trust it: welcome, records, beats, NOT LIVE.

import { describe, expect, it } from 'vitest'
import { realBrain } from '../../client/session/realBrain.ts'
import { RoomWatch } from '../../client/session/roomWatch.ts'
import type { PrivateId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Beat } from '../../shared/wire/frames.ts'
import { FakeLink } from '../support/fakeLink.ts'
import { FakeTimers } from '../support/fakeTimers.ts'
import { ana, boardAt, Device, hashAt, record, records, roomMs, welcome } from './device.ts'

const beat = (version: number, more: Partial<Beat> = {}): Beat => ({
  type: 'beat',
  nowMs: roomMs,
  version,
  house: [],
  ...more,
})

/** A screen on the wall: nothing but watching. */
function wall() {
  const link = new FakeLink()
  const timers = new FakeTimers()
  const complaints: unknown[] = []
  const watch = new RoomWatch({
    link,
    timers,
    chance: () => 0.5,
    complain: (what, error) => complaints.push([what, error]),
    brain: realBrain,
    room: 'meadow',
    screen: 'wall',
  })
  watch.start()
  return { link, timers, complaints, watch }
}

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

describe('a beat', () => {
  it('with the hash of our board confirms it', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(beat(3, { hash: hashAt(3) }))
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })

  it('with another hash at our version is not live until a whole board has come', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(beat(3, { hash: hashAt(3) + 1 }))
    expect(watch.snapshot().liveness).toMatchObject({ status: 'notLive', why: 'otherBoard' })
    await timers.pass(5_000)
    link.open()
    expect(link.lastHello()).toMatchObject({ epoch: 0, version: 0 })
    link.say(welcome(3))
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })

  it('ahead of our board shows that a record was lost', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(beat(4))
    expect(link.isOpen).toBe(false)
    expect(watch.snapshot().liveness).toEqual({ status: 'connecting' })
  })

  it('that a record has overtaken is no reason for anything', () => {
    const { link, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(record(4))
    link.say(beat(3, { hash: 1 }))
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
  })

  it('carries what is wrong with the house', () => {
    const { link, watch } = wall()
    const house = [{ type: 'journalFailing', sinceMs: roomMs }] as const
    link.open()
    link.say(welcome(3))
    link.say(beat(3, { house }))
    expect(watch.snapshot().house).toEqual(house)
    link.say(beat(3))
    expect(watch.snapshot().house).toEqual([])
  })
})

describe('not live', () => {
  it('is said after ten seconds without a word, with the room time last heard', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.say(beat(3, { nowMs: roomMs + 2_000 }))
    await timers.pass(9_999)
    expect(watch.snapshot().liveness).toEqual({ status: 'live' })
    await timers.pass(1)
    expect(watch.snapshot().liveness).toEqual({
      status: 'notLive',
      sinceMs: roomMs + 2_000,
      why: 'silent',
    })
    expect(watch.snapshot().board).toEqual(boardAt(3))
  })

  it('is said ten seconds after the last word although the link broke at once', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    link.cut()
    expect(watch.snapshot().liveness).toEqual({ status: 'connecting' })
    await timers.pass(9_999)
    expect(watch.snapshot().liveness).toEqual({ status: 'connecting' })
    await timers.pass(1)
    expect(watch.snapshot().liveness).toMatchObject({ status: 'notLive', why: 'silent' })
  })

  it('is said by a screen that never heard anything', async () => {
    const { timers, watch } = wall()
    await timers.pass(10_000)
    expect(watch.snapshot().liveness).toEqual({ status: 'notLive', sinceMs: null, why: 'silent' })
  })

  it('lasts through new attempts until a welcome', async () => {
    const { link, timers, watch } = wall()
    link.open()
    link.say(welcome(3))
    await timers.pass(15_000)
    link.open()
    expect(watch.snapshot().liveness).toMatchObject({ status: 'notLive' })
    link.say(welcome(0, { state: { type: 'tail', records: [] } }))
    expect(watch.snapshot()).toMatchObject({ version: 3, liveness: { status: 'live' } })
  })

  it('is told to subscribers when it begins', async () => {
    const { timers, watch } = wall()
    const told: string[] = []
    watch.subscribe(({ liveness }) => told.push(liveness.status))
    await timers.pass(30_000)
    expect(told).toContain('notLive')
  })
})

describe('a subscriber', () => {
  it('that throws keeps nothing from the others, nor from the board', () => {
    const { link, watch, complaints } = wall()
    const versions: number[] = []
    watch.subscribe(() => {
      throw new Error('a broken view')
    })
    watch.subscribe(({ version }) => versions.push(version))
    link.open()
    link.say(welcome(3))
    link.say(record(4))
    expect(versions.at(-1)).toBe(4)
    expect(link.isOpen).toBe(true)
    expect(complaints).toContainEqual(['a subscriber failed', new Error('a broken view')])
  })

  it('is not told any more once it has left', () => {
    const { link, watch } = wall()
    let told = 0
    const leave = watch.subscribe(() => {
      told += 1
    })
    leave()
    link.open()
    link.say(welcome(3))
    expect(told).toBe(0)
  })
})

describe('the versions a device shows', () => {
  it('are without a gap and never go back, over cuts, repeats and whole boards', async () => {
    const device = await new Device().live(3)
    device.link.say(record(4))
    device.link.say(record(4))
    await device.cut()
    await device.welcomed(0, { state: { type: 'tail', records: records(2, 7) } })
    device.link.say(record(9))
    await device.timers.pass(5_000)
    await device.welcomed(9)
    device.link.say(record(10))
    expect(device.seen).toEqual([
      { epoch: 1, version: 3, by: 'board' },
      ...[4, 5, 6, 7].map((version) => ({ epoch: 1, version, by: 'record' })),
      { epoch: 1, version: 9, by: 'board' },
      { epoch: 1, version: 10, by: 'record' },
    ])
  })
})
