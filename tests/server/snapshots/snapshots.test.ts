// Snapshots are a cache: the newest good one is found, a bad one is passed over and named.

import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import {
  newestGoodSnapshot,
  type Snapshot,
  saveSnapshot,
} from '../../../server/snapshots/snapshots.ts'
import { type DiskPlace, disks } from '../../support/disks.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { cutPowerAt } from '../../support/powerCut.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'

const snapshot = (version: number): Snapshot => ({
  format: 2,
  room: 'nursery',
  epoch: 1,
  version,
  hash: 'a'.repeat(64),
  boardHash: version * 7,
  board: { nests: [version] },
  lanes: { d1: [] },
})
const any = () => true
const names = (bad: readonly { readonly file: string }[]) => bad.map(({ file }) => file.slice(-10))

describe.each(disks)('snapshots on %s', (_name, open) => {
  let opened: DiskPlace
  beforeEach(async () => {
    opened = await open()
  })
  afterEach(() => opened.done())
  const place = () => ({ disk: opened.disk, dir: opened.root, room: 'nursery' })

  it('are none at first', async () => {
    expect(await newestGoodSnapshot(place(), any)).toEqual({ snapshot: null, bad: [] })
  })

  it('come back as the newest, and only the newest two are kept', async () => {
    for (const version of [9, 10, 200, 1_000]) await saveSnapshot(place(), snapshot(version))
    expect((await newestGoodSnapshot(place(), any)).snapshot).toEqual(snapshot(1_000))
    expect(await opened.disk.list(opened.root)).toEqual([
      'snapshot-000000000200.json',
      'snapshot-000000001000.json',
    ])
  })

  it('come back as the one before, where the newest does not pass the check', async () => {
    for (const version of [1, 2]) await saveSnapshot(place(), snapshot(version))
    const found = await newestGoodSnapshot(place(), ({ boardHash }) => boardHash === 7)
    expect(found.snapshot?.version).toBe(1)
    expect(found.bad).toEqual([
      {
        file: join(opened.root, 'snapshot-000000000002.json'),
        why: 'the board in it is not the one it names',
      },
    ])
  })
})

describe('a snapshot', () => {
  const disk = () => new FakeDisk({ choose: seededChoose(4) })
  const on = (where: FakeDisk) => ({ disk: where, dir: '/', room: 'nursery' })

  it('with any byte changed or cut off is passed over and named', async () => {
    const where = disk()
    for (const version of [1, 2]) await saveSnapshot(on(where), snapshot(version))
    const whole = Buffer.from(where.files.get('/snapshot-000000000002.json') ?? [])
    for (let at = 0; at < whole.length; at += 1) {
      const flipped = Buffer.from(whole)
      flipped[at] = (flipped[at] ?? 0) ^ 1
      for (const damaged of [flipped, whole.subarray(0, Math.min(at, whole.length - 2))]) {
        where.place('/snapshot-000000000002.json', damaged)
        const found = await newestGoodSnapshot(on(where), any)
        expect(found.snapshot?.version).toBe(1)
        expect(names(found.bad)).toEqual(['00002.json'])
      }
    }
  })

  it('of another room, of a newer program, or that cannot be read is passed over', async () => {
    const where = disk()
    await saveSnapshot(on(where), snapshot(1))
    await saveSnapshot(on(where), { ...snapshot(2), room: 'annexe' })
    await saveSnapshot(on(where), { ...snapshot(3), format: 1 as 2 })
    const found = await newestGoodSnapshot(on(where), any)
    expect(found.snapshot).toBeNull()
    expect(names(found.bad)).toEqual(['00003.json', '00002.json'])
    where.failNth('read', 1, 'EIO')
    expect((await newestGoodSnapshot(on(where), any)).bad[0]?.why).toContain('EIO')
  })

  it('leaves the one before or the new one, wherever the power is cut while saving', async () => {
    const seen = new Set<string>()
    for (let stopAt = 1; stopAt <= 12; stopAt += 1) {
      await everyChoice(async (choose) => {
        const where = new FakeDisk({ choose })
        for (const version of [1, 2]) await saveSnapshot(on(where), snapshot(version))
        const cut = await cutPowerAt(where, stopAt, (stopping) =>
          saveSnapshot(on(stopping), snapshot(3)),
        )
        const found = await newestGoodSnapshot(on(cut.after), any)
        expect(found.bad).toEqual([])
        seen.add(`${cut.isDone ? 'saved' : 'cut'} ${found.snapshot?.version}`)
      }, 20_000)
    }
    expect(seen).toEqual(new Set(['cut 2', 'cut 3', 'saved 3']))
  })

  it('that could not be saved is heard of, and the one before stands', async () => {
    const where = disk()
    await saveSnapshot(on(where), snapshot(1))
    where.failChanges('ENOSPC')
    await expect(saveSnapshot(on(where), snapshot(2))).rejects.toMatchObject({ code: 'ENOSPC' })
    expect((await newestGoodSnapshot(on(where), any)).snapshot?.version).toBe(1)
  })
})
