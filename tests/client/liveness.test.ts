// How far a screen may trust what it shows: beats, hashes, NOT LIVE, and who is told of it.

import { describe, expect, it } from 'vitest'
import { boardAt, Device, hashAt, record, records, roomMs, welcome } from './device.ts'
import { beat, wall } from './wall.ts'

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
