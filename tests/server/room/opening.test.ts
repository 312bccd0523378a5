// Founding a room and opening it again: what it knew before, it knows after.

import { describe, expect, it } from 'vitest'
import { DamagedFile } from '../../../server/disk/damage.ts'
import { createRoom, openRoom } from '../../../server/room/openRoom.ts'
import { realBrain } from '../../../server/room/realBrain.ts'
import { RoomRefused } from '../../../server/room/roomRefused.ts'
import { hashBoard } from '../../../shared/board/boardHash.ts'
import { emptyBoard } from '../../../shared/board/state.ts'
import { foldEvents } from '../../../shared/rules/evolve.ts'
import { nestOf, personOf } from '../../support/roomBuilder.ts'
import {
  claim,
  feed,
  pass,
  RoomOnDisk,
  startMs,
  typesIn,
  weigh,
  wishes,
  withoutAsking,
} from './roomOnDisk.ts'

const refusal = (promise: Promise<unknown>) =>
  promise.then(
    () => null,
    (error: unknown) => (error instanceof RoomRefused ? error.code : error),
  )

const handsOf = (board: { nests: Record<string, { hands: { type: string } }> }, n: number) =>
  board.nests[nestOf(n)]?.hands.type

describe('a new room', () => {
  it('begins with its founding and its start, both by the server', async () => {
    const room = await createRoom(new RoomOnDisk().place(), wishes)
    expect(room.durable.version).toBe(2)
    expect(room.recordsAfter(0)).toMatchObject([
      { version: 1, cause: { type: 'server' }, events: [{ type: 'RoomFounded', room: 'meadow' }] },
      { version: 2, cause: { type: 'server' }, events: [{ type: 'RoomOpened', atMs: startMs }] },
    ])
    expect(room).toMatchObject({ id: 'meadow', epoch: 1, speed: 1 })
  })

  it('is not founded where one stands', async () => {
    const house = new RoomOnDisk()
    await (await house.founded()).close()
    expect(await refusal(createRoom(house.place(), wishes))).toBe('alreadyFounded')
  })

  it('is not opened where none stands, and no file is left by trying', async () => {
    const house = new RoomOnDisk()
    expect(await refusal(house.open())).toBe('notFounded')
    expect([...house.disk.files.keys()]).toEqual([])
  })

  it('is not founded in a time zone nobody knows', async () => {
    const house = new RoomOnDisk()
    const code = await refusal(createRoom(house.place(), { ...wishes, zone: 'Moon/Tranquility' }))
    expect(code).toBe('rulesFailed')
    expect(await refusal(house.open())).toBe('notFounded')
  })

  it('is refused where its first record cannot be written', async () => {
    const house = new RoomOnDisk()
    house.disk.failNth('write', 1, 'ENOSPC')
    expect(await refusal(createRoom(house.place(), wishes))).toBe('notWritable')
    expect(house.timers.alarmCount).toBe(0)
  })
})

describe('a room opened again', () => {
  it.each(['closed', 'killed', 'cut from its power'])(
    'after it was %s is as it was',
    async (how) => {
      const house = new RoomOnDisk()
      const before = await house.founded()
      await house.say(before, 2, claim(1))
      await house.say(before, 3, weigh(4))
      if (how === 'closed') await before.close()
      if (how === 'cut from its power') house.cutPower()
      else house.kill()
      const after = await house.open()
      expect(typesIn(after.recordsAfter(before.durable.version))).toEqual(['RoomOpened'])
      expect(after.durable.board).toEqual({
        ...before.durable.board,
        room: { ...before.durable.board.room, openedAtMs: startMs },
      })
      expect(after.hash()).toBe(hashBoard(after.durable.board))
    },
  )

  it('keeps every claim for a minute, and then each lapses once', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    await house.say(before, 2, claim(1))
    await before.close()
    house.kill()
    house.timers.setWall(startMs + 60 * 60_000)
    const after = await house.open()
    expect(handsOf(after.durable.board, 1)).toBe('held')
    await pass(house, 0.99)
    expect(handsOf(after.durable.board, 1)).toBe('held')
    await pass(house, 0.1)
    expect(handsOf(after.durable.board, 1)).toBe('free')
    expect(after.durable.board.nests[nestOf(1)]?.doubts).toHaveLength(1)
    const lapsedAt = after.durable.version
    await pass(house, 5)
    await after.close()
    house.kill()
    const again = await house.open()
    await pass(house, 5)
    expect(withoutAsking(typesIn(again.recordsAfter(lapsedAt)))).toEqual(['RoomOpened'])
  })

  it('never starts its clock before its last record, and says civil time moved', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    await pass(house, 30)
    await house.say(before, 2, weigh(1))
    await before.close()
    house.kill()
    house.timers.setWall(startMs - 60 * 60_000)
    const after = await house.open()
    expect(after.nowMs()).toBe(startMs + 30 * 60_000)
    expect(typesIn(after.recordsAfter(before.durable.version))).toEqual([
      'RoomOpened',
      'CivilOffsetChanged',
    ])
    expect(after.durable.board.room.civilOffsetMs).toBe(-90 * 60_000)
  })

  it('asks about a long gap for a quarter of an hour', async () => {
    const house = new RoomOnDisk()
    await (await house.founded()).close()
    house.kill()
    house.timers.setWall(startMs + 11 * 60_000)
    const room = await house.open()
    expect(room.house()).toEqual([{ type: 'clockJumped', byMs: 11 * 60_000 }])
    await pass(house, 15)
    expect(room.house()).toEqual([])
  })

  it('asks nothing after a short gap', async () => {
    const house = new RoomOnDisk()
    await (await house.founded()).close()
    house.kill()
    house.timers.setWall(startMs + 9 * 60_000)
    expect((await house.open()).house()).toEqual([])
  })

  it('gives screens the names beside its board, and no other words', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    const box = {
      ...{ type: 'BoxArrived', v: 1, label: 'K', incubator: 'i1', howMany: 2, size: 'small' },
      private: { note: 'fell from an eave' },
    }
    await house.say(before, 2, box as never)
    await before.close()
    house.kill()
    const { people, nests } = before.durable.board
    const names = (await house.open()).names()
    const boxed = Object.values(nests).find(({ label }) => label === 'K')
    expect(names[people[personOf(2)]?.nameId ?? ('' as never)]).toEqual({ name: 'Ana' })
    expect(names[boxed?.noteId ?? ('' as never)]).toEqual({ note: 'fell from an eave' })
    expect(Object.keys(names)).toHaveLength(5)
  })

  it('out of a backup has an epoch of its own from then on', async () => {
    const house = new RoomOnDisk()
    await (await house.founded()).close()
    house.kill()
    const restored = await house.open({ isRestored: true })
    expect(restored.epoch).toBe(2)
    await restored.close()
    house.kill()
    expect((await house.open()).epoch).toBe(2)
  })
})

describe('a damaged folder', () => {
  const journalPath = (house: RoomOnDisk) =>
    [...house.disk.files.keys()].find((path) => path.endsWith('.journal')) ?? ''

  it('with a torn last record gives back all that was answered, and says so', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    await house.say(before, 2, weigh(1))
    const path = journalPath(house)
    const whole = house.disk.files.get(path) ?? new Uint8Array()
    house.kill()
    const torn = new Uint8Array([...whole, ...new TextEncoder().encode('{"version":5,"epo')])
    house.disk.place(path, torn)
    const after = await house.open()
    expect(typesIn(after.recordsAfter(0))).toContain('Weighed')
    expect(house.logged).toMatchObject([{ room: 'meadow', count: 17 }])
  })

  it('with damage in the middle is refused by name', async () => {
    const house = new RoomOnDisk()
    await (await house.founded()).close()
    for (const path of [...house.disk.files.keys()]) {
      if (path.includes('snapshot')) await house.disk.remove(path)
    }
    const path = journalPath(house)
    const bytes = (house.disk.files.get(path) ?? new Uint8Array()).slice()
    bytes[40] = (bytes[40] ?? 0) ^ 1
    house.kill()
    house.disk.place(path, bytes)
    await expect(openRoom(house.place())).rejects.toBeInstanceOf(DamagedFile)
  })

  it.each(['damaged', 'not what it says it is'])(
    'with a snapshot that is %s opens from the journal',
    async (how) => {
      const house = new RoomOnDisk()
      const before = await house.founded()
      await house.say(before, 2, claim(1))
      await before.close()
      house.kill()
      const path = [...house.disk.files.keys()].find((name) => name.includes('snapshot')) ?? ''
      const bytes = (house.disk.files.get(path) ?? new Uint8Array()).slice()
      if (how === 'damaged') {
        bytes[100] = (bytes[100] ?? 0) ^ 1
        house.disk.place(path, bytes)
      }
      const hash =
        how === 'damaged' ? hashBoard : (board: typeof emptyBoard) => hashBoard(board) ^ 1
      const after = await house.open({ brain: { ...realBrain, hashBoard: hash } })
      expect(after.durable.board.nests).toEqual(before.durable.board.nests)
      expect(house.logged).toHaveLength(1)
      expect(after.durable.version).toBe(before.durable.version + 1)
    },
  )
})

describe('a snapshot', () => {
  it('is saved every five hundred records and at the end, and the newest two are kept', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    const snapshots = () =>
      [...house.disk.files.keys()]
        .filter((path) => path.includes('snapshot'))
        .map((path) => path.slice(-9, -5))
    for (let n = 1; n <= 1_100; n += 1) await house.say(room, 2, weigh(1 + (n % 12)))
    await pass(house, 0)
    expect(snapshots()).toEqual(['0500', '1000'])
    await room.close()
    expect(snapshots()).toEqual(['1000', '1103'])
  })

  it('that cannot be saved stops nothing', async () => {
    const house = new RoomOnDisk()
    const room = await house.founded()
    house.disk.failNth('rename', 1, 'EIO')
    await room.close()
    expect(house.logged).toMatchObject([{ room: 'meadow', version: 3 }])
    house.kill()
    const after = await house.open()
    expect(after.durable.version).toBe(4)
  })

  it('and the tail make the board that the whole journal makes', async () => {
    const house = new RoomOnDisk()
    const first = await house.founded()
    await house.say(first, 2, claim(1))
    await first.close()
    house.kill()
    const second = await house.open()
    await house.say(second, 2, feed(1, 1))
    await house.say(second, 3, claim(2))
    house.kill()
    const third = await house.open()
    const events = third.recordsAfter(0)?.flatMap((record) => record.events) ?? []
    expect(hashBoard(foldEvents(emptyBoard, events))).toBe(third.hash())
    expect(typesIn(third.recordsAfter(first.durable.version))).toContain('RoundRecorded')
  })
})
