// What a served room shows, and how it goes on after its disk has failed.

import { describe, expect, it } from 'vitest'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { tailMax } from '../../../shared/wire/limits.ts'
import {
  claim,
  feed,
  pass,
  RoomOnDisk,
  startMs,
  typesIn,
  weigh,
  withoutAsking,
} from './roomOnDisk.ts'

describe('the tail for a screen that comes back', () => {
  it('is every record it missed, in order', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    await house.say(room, 2, weigh(1))
    await house.say(room, 2, weigh(2))
    expect(room.recordsAfter(3)).toMatchObject([{ version: 4 }, { version: 5 }])
    expect(room.recordsAfter(4)).toMatchObject([{ version: 5 }])
    expect(room.recordsAfter(5)).toEqual([])
  })

  it('is none where a version is told that this room never had', async () => {
    const room = await new RoomOnDisk().founded()
    expect(room.recordsAfter(room.durable.version + 1)).toBeNull()
  })

  it('ends at five hundred records, before and after a restart', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    for (let n = 1; n <= tailMax + 20; n += 1) await house.say(room, 2, weigh(1 + (n % 12)))
    const { version } = room.durable
    expect(room.recordsAfter(version - tailMax)).toHaveLength(tailMax)
    expect(room.recordsAfter(version - tailMax - 1)).toBeNull()
    await room.close()
    house.kill()
    const after = await house.open()
    expect(after.recordsAfter(version)).toMatchObject([{ version: version + 1 }])
    const tail = after.recordsAfter(version + 1 - tailMax)
    expect(tail?.map((record) => record.version)).toEqual(
      Array.from({ length: tailMax }, (_, at) => version + 2 - tailMax + at),
    )
    expect(after.recordsAfter(version - tailMax)).toBeNull()
  })

  it('lacks its first record under the planted mistake', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded({ bugs: { resumesOneShort: true } })
    await house.say(room, 2, weigh(1))
    expect(room.recordsAfter(2)).toMatchObject([{ version: 4 }])
  })
})

describe('a screen that listens', () => {
  it('hears each record once, in order, until it stops', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    const heard: number[] = []
    const stop = room.subscribe(({ version }) => heard.push(version))
    await house.say(room, 2, weigh(1))
    await house.say(room, 3, weigh(1))
    stop()
    await house.say(room, 2, weigh(1))
    expect(heard).toEqual([4, 5])
  })

  it('that breaks harms no other and no answer', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    const heard: number[] = []
    room.subscribe(() => {
      throw new Error('a broken screen')
    })
    room.subscribe(({ version }) => heard.push(version))
    expect(await house.say(room, 2, weigh(1))).toMatchObject({ status: 'applied' })
    expect(heard).toEqual([4])
    expect(house.logged).toMatchObject([{ version: 4 }])
  })
})

describe('a room whose disk fails', () => {
  const failed = async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    await house.say(room, 2, claim(1))
    house.disk.failChanges('ENOSPC')
    const fault = await house.sayAs(room, { lane: 'd3', n: 1 }, weigh(1))
    return { house, room, fault }
  }

  it('says so, acknowledges nothing more, and is read on', async () => {
    const { house, room, fault } = await failed()
    expect(fault).toMatchObject({ type: 'fault', code: 'journalFailing', lane: 'd3', n: 1 })
    expect(room.house()).toEqual([{ type: 'journalFailing', sinceMs: startMs }])
    expect(await house.sayAs(room, { lane: 'd3', n: 1 }, weigh(1))).toEqual(fault)
    expect(room.durable.version).toBe(4)
    expect(room.recordsAfter(3)).toMatchObject([{ version: 4 }])
    expect(room.laneN('d2')).toBe(1)
  })

  it('stays read-only however often it is opened anew while the disk fails', async () => {
    const { house, room, fault } = await failed()
    expect(await room.reopen()).toBe(false)
    await pass(house, 10)
    expect(await house.sayAs(room, { lane: 'd3', n: 1 }, weigh(1))).toEqual(fault)
    expect(room.house()).toEqual([{ type: 'journalFailing', sinceMs: startMs }])
  })

  it('goes on by itself within half a minute of the disk’s recovery', async () => {
    const { house, room } = await failed()
    const heard: RecordFrame[] = []
    room.subscribe((record) => heard.push(record))
    await pass(house, 3)
    house.disk.heal()
    await pass(house, 0.5)
    expect(room.house()).toEqual([])
    expect(typesIn(heard)).toEqual(['RoomOpened'])
    expect(room.durable.version).toBe(5)
    expect(room.epoch).toBe(1)
    expect(await house.sayAs(room, { lane: 'd3', n: 1 }, weigh(1))).toEqual({
      ...{ status: 'applied', version: 6 },
    })
    expect(await house.sayAs(room, { lane: 'd2', n: 1 }, claim(1))).toEqual({
      ...{ status: 'applied', version: 4 },
    })
  })

  it('gives its people a minute again before a claim lapses', async () => {
    const { house, room } = await failed()
    await pass(house, 30)
    house.disk.heal()
    expect(await room.reopen()).toBe(true)
    await pass(house, 0.9)
    expect(withoutAsking(typesIn(room.recordsAfter(4)))).toEqual(['RoomOpened'])
    await pass(house, 0.2)
    expect(typesIn(room.recordsAfter(4))).toContain('ClaimEnded')
  })

  it('finds what was written but not answered for, shows it, and never writes it twice', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    const heard: RecordFrame[] = []
    room.subscribe((record) => heard.push(record))
    house.disk.failNth('sync', 1, 'EIO')
    const command = { lane: 'd2', n: 1 }
    expect(await house.sayAs(room, command, claim(1))).toMatchObject({ code: 'journalFailing' })
    expect(heard).toEqual([])
    expect(await room.reopen()).toBe(true)
    expect(typesIn(heard)).toEqual(['NestClaimed', 'RoomOpened'])
    expect(await house.sayAs(room, command, claim(1))).toEqual({ status: 'applied', version: 4 })
    house.cutPower()
    const after = await house.open()
    expect(typesIn(after.recordsAfter(3))).toEqual(['NestClaimed', 'RoomOpened', 'RoomOpened'])
  })

  it('closes in good order and opens as it was last known', async () => {
    const { house, room } = await failed()
    await room.close()
    expect(house.timers.alarmCount).toBe(0)
    expect(await room.reopen()).toBe(false)
    house.disk.heal()
    house.cutPower()
    const after = await house.open()
    expect(typesIn(after.recordsAfter(3))).toEqual(['NestClaimed', 'RoomOpened'])
  })

  it('goes on after a private text could not be written, and keeps the next one', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    const newcomer = (name: string) => ({
      ...{ type: 'AddPerson', v: 1, role: 'volunteer', signOffs: [], private: { name } },
    })
    house.disk.failNth('sync', 1, 'EIO')
    const fault = await house.sayAs(room, { lane: 'd1', n: 1 }, newcomer('Noor') as never)
    expect(fault).toMatchObject({ code: 'journalFailing' })
    expect(await room.reopen()).toBe(true)
    await house.sayAs(room, { lane: 'd1', n: 1 }, newcomer('Noor') as never)
    expect(Object.values(room.names())).toContainEqual({ name: 'Noor' })
    house.cutPower()
    expect(Object.values((await house.open()).names())).toContainEqual({ name: 'Noor' })
  })
})

describe('a closed room', () => {
  it('turns commands away and leaves no timer behind', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    await house.say(room, 2, claim(1))
    await room.close()
    expect(house.timers.alarmCount).toBe(0)
    expect(await house.say(room, 2, feed(1, 1))).toMatchObject({ type: 'fault', code: 'busy' })
  })
})

describe('an old day that rots', () => {
  it('is found by the scrub and named in the heartbeat', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    expect(await room.scrub(async () => undefined)).toEqual([])
    const [path] = [...house.disk.files.keys()].filter((name) => name.endsWith('.journal'))
    const bytes = (house.disk.files.get(path ?? '') ?? new Uint8Array()).slice()
    bytes[40] = (bytes[40] ?? 0) ^ 1
    house.disk.place(path ?? '', bytes)
    expect(await room.scrub(async () => undefined)).toHaveLength(1)
    expect(room.house()).toEqual([{ type: 'damageFound', file: path }])
  })
})
