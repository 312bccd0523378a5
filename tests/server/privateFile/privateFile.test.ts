// Names and notes are on disk before any record names them, and come back as they were written.

import { createHash } from 'node:crypto'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { WriteFailed } from '../../../server/disk/appender.ts'
import type { Disk } from '../../../server/disk/disk.ts'
import { seal } from '../../../server/disk/seal.ts'
import {
  hashPrivate,
  openPrivateFile,
  type PrivateFile,
} from '../../../server/privateFile/privateFile.ts'
import { privateId } from '../../../shared/board/parts.ts'
import { type DiskPlace, disks } from '../../support/disks.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { fixedChance } from '../../support/fixedChance.ts'
import { cutPowerAt } from '../../support/powerCut.ts'
import { everyChoice, seededChoose } from '../../support/seededChoose.ts'

// Thousands of small openings; a machine with much else to do takes its time over them.
vi.setConfig({ testTimeout: 30_000 })

const open = (disk: Disk, dir: string) => openPrivateFile({ disk, dir, chance: fixedChance(1) })
const x = (no: number) => privateId.parse(`x${no}`)
const namesOf = (file: PrivateFile) => [...file.all().values()].map(({ name }) => name)

async function write(file: PrivateFile, ...names: readonly string[]) {
  const refs = names.map((name) => file.stage({ name }))
  await file.flush()
  return refs
}

describe.each(disks)('a private file on %s', (_name, openPlace) => {
  let place: DiskPlace
  let opened: PrivateFile[] = []
  beforeEach(async () => {
    place = await openPlace()
  })
  afterEach(async () => {
    for (const file of opened) await file.close()
    opened = []
    await place.done()
  })
  const reopen = async () => {
    const { file, torn } = await open(place.disk, join(place.root, 'nursery', '2026'))
    opened.push(file)
    return { file, torn }
  }

  it('counts ids up from x1, over openings, and hands back what was flushed', async () => {
    const { file } = await reopen()
    expect((await write(file, 'Ana', 'Ben')).map(({ id }) => id)).toEqual(['x1', 'x2'])
    const again = await reopen()
    expect(again.torn).toBeNull()
    expect(namesOf(again.file)).toEqual(['Ana', 'Ben'])
    expect((await write(again.file, 'Mara')).map(({ id }) => id)).toEqual(['x3'])
    expect((await reopen()).file.get(x(3))).toEqual({ name: 'Mara' })
  })

  it('has nothing under an id it never gave out', async () => {
    expect((await reopen()).file.get(x(1))).toBeNull()
  })
})

describe('a private entry', () => {
  const seeded = () => new FakeDisk({ choose: seededChoose(2) })
  const path = '/r/private.ndjson'

  async function threeNames(): Promise<Buffer> {
    const disk = seeded()
    await write((await open(disk, '/r')).file, 'Ana', 'Bén', 'Mara')
    return Buffer.from(disk.files.get(path) ?? [])
  }
  async function onDisk(bytes: Uint8Array): Promise<FakeDisk> {
    const disk = seeded()
    await disk.makeDir('/r')
    disk.place(path, bytes)
    return disk
  }

  it('is named by a salted hash that nothing but the entry gives', async () => {
    const disk = seeded()
    const { file } = await open(disk, '/r')
    const [first, second] = await write(file, 'Ana', 'Ana')
    const line = JSON.parse(
      Buffer.from(disk.files.get(path) ?? [])
        .toString()
        .split('\n')[0] ?? '',
    )
    const expected = createHash('sha256').update(`${line.salt}{"name":"Ana"}`).digest('hex')
    expect(first?.hash).toBe(expected)
    expect(second?.hash).not.toBe(expected)
    expect(hashPrivate('00', { a: '1', b: '2' })).toBe(hashPrivate('00', { b: '2', a: '1' }))
  })

  it('is not on disk before the flush, and safe from any loss after it', async () => {
    const disk = seeded()
    const { file } = await open(disk, '/r')
    file.stage({ name: 'Ana' })
    expect(disk.files.get(path)?.length).toBe(0)
    expect(file.get(x(1))).toEqual({ name: 'Ana' })
    await file.flush()
    expect(namesOf((await open(disk.crash(), '/r')).file)).toEqual(['Ana'])
  })

  it('taken back before the flush is never written, and its id is not given again', async () => {
    const disk = seeded()
    const { file } = await open(disk, '/r')
    const ana = file.stage({ name: 'Ana' })
    file.stage({ name: 'Ben' })
    file.unstage(ana)
    expect(file.get(ana.id)).toBeNull()
    await file.flush()
    file.unstage({ id: x(2), hash: '' })
    const again = (await open(disk.crash(), '/r')).file
    expect(again.all()).toEqual(new Map([[x(2), { name: 'Ben' }]]))
    expect(again.stage({ name: 'Mara' }).id).toBe('x3')
  })

  it('shows a screen its name and note, and never its finder', async () => {
    const { file } = await open(seeded(), '/r')
    const person = file.stage({ name: 'Ana', note: undefined })
    const box = file.stage({ note: 'one egg', finder: 'Zoe Finder', place: 'Mill Lane' })
    const finder = file.stage({ finder: 'Zoe Finder' })
    expect(file.namesOf([person, box, finder, { id: x(9) }])).toEqual({
      x1: { name: 'Ana' },
      x2: { note: 'one egg' },
    })
  })

  it('costs no write where none is staged', async () => {
    const disk = seeded()
    const { file } = await open(disk, '/r')
    const calls = disk.callCount
    await file.flush()
    expect(disk.callCount).toBe(calls)
  })

  it('too long for any edge to let through is a mistake of ours', async () => {
    const { file } = await open(seeded(), '/r')
    expect(() => file.stage({ note: 'n'.repeat(17_000) })).toThrow('short enough')
  })

  it('torn at any byte of the last one is cut off, kept beside, and its id is free again', async () => {
    const whole = await threeNames()
    const start = whole.lastIndexOf(10, whole.length - 2) + 1
    for (let cut = start + 1; cut < whole.length; cut += 1) {
      const disk = await onDisk(whole.subarray(0, cut))
      const { file, torn } = await open(disk, '/r')
      expect(namesOf(file)).toEqual(['Ana', 'Bén'])
      expect(torn).toEqual({ path: `${path}.torn-3`, lengthBytes: cut - start })
      expect(Buffer.from(disk.files.get(`${path}.torn-3`) ?? [])).toEqual(
        whole.subarray(start, cut),
      )
      expect(file.stage({ name: 'Iris' }).id).toBe('x3')
    }
  })

  it('changed in any byte is refused by name, or cut off where it is the last', async () => {
    const whole = await threeNames()
    const last = whole.lastIndexOf(10, whole.length - 2) + 1
    for (let at = 0; at < whole.length; at += 1) {
      const flipped = Buffer.from(whole)
      flipped[at] = (flipped[at] ?? 0) ^ 1
      const opening = open(await onDisk(flipped), '/r')
      if (at < last) {
        await expect(opening).rejects.toMatchObject({ name: 'DamagedFile', kind: 'badLine' })
      } else expect(namesOf((await opening).file)).toEqual(['Ana', 'Bén'])
    }
  })

  it('out of order or of a newer program is refused; an erased one keeps its id from use', async () => {
    const entry = (text: string) => `${seal(text)}\n`
    const named = (id: string) =>
      entry(`{"id":"${id}","salt":"${'0'.repeat(32)}","fields":{"name":"Ana"}}`)
    const opening = async (...lines: readonly string[]) =>
      open(await onDisk(Buffer.from(lines.join(''))), '/r')
    await expect(opening(named('x2'), named('x2'))).rejects.toMatchObject({ kind: 'outOfOrder' })
    await expect(opening(entry('{"id":"x1","mood":"good"}'))).rejects.toMatchObject({
      kind: 'unknownFormat',
      line: 1,
    })
    const { file } = await opening(named('x1'), entry('{"id":"x4","erased":true}'))
    expect(file.get(x(4))).toBeNull()
    expect(file.stage({ name: 'Ben' }).id).toBe('x5')
  })

  it('is kept whole or not at all, wherever the power is cut around a flush', async () => {
    const seen = new Set<string>()
    for (let stopAt = 1; stopAt <= 14; stopAt += 1) {
      await everyChoice(async (choose) => {
        const disk = new FakeDisk({ choose })
        await write((await open(disk, '/r')).file, 'Ana')
        const cut = await cutPowerAt(disk, stopAt, async (on) => {
          await write((await open(on, '/r')).file, 'Ben')
        })
        seen.add(`${cut.isDone ? 'flushed' : 'cut'} ${namesOf((await open(cut.after, '/r')).file)}`)
      }, 50_000)
    }
    expect(seen).toEqual(new Set(['cut Ana', 'cut Ana,Ben', 'flushed Ana,Ben']))
  })

  it('cannot be flushed any more after the first failure', async () => {
    for (const call of ['write', 'sync'] as const) {
      const disk = seeded()
      const { file } = await open(disk, '/r')
      await write(file, 'Ana')
      disk.failNth(call, 1, 'EIO')
      await expect(write(file, 'Ben')).rejects.toBeInstanceOf(WriteFailed)
      await expect(file.flush()).rejects.toBe(file.failure)
      await expect(write(file, 'Mara')).rejects.toBe(file.failure)
      expect(namesOf((await open(disk.crash(), '/r')).file)[0]).toBe('Ana')
    }
  })

  it('flushed is never lost over whole lives of failures and losses', async () => {
    const step = fc.record({
      names: fc.integer({ min: 0, max: 2 }),
      failNth: fc.integer({ min: 0, max: 6 }),
      end: fc.constantFrom('power' as const, 'process' as const, 'none' as const),
    })
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 8 }), fc.integer(), async (steps, seed) => {
        let disk = new FakeDisk({ choose: seededChoose(seed) })
        let file: PrivateFile | null = null
        const flushed = new Map<string, string>()
        let count = 0
        for (const { names, failNth, end } of steps) {
          file ??= await open(disk, '/r').then(
            (opened) => opened.file,
            () => null,
          )
          if (failNth > 0) disk.failNthChange(failNth, 'EIO')
          const staged = Array.from({ length: names }, (_, at) => `N${count + at}`)
          count += names
          const refs = file === null ? [] : await write(file, ...staged).catch(() => [])
          for (const [at, { id }] of refs.entries()) flushed.set(id, staged[at] ?? '')
          if (end !== 'none') disk = end === 'power' ? disk.crash() : disk.kill()
          if (end !== 'none' || file?.failure) file = null
        }
        const { file: left } = await open(disk.crash(), '/r')
        for (const [id, name] of flushed) expect(left.get(privateId.parse(id))).toEqual({ name })
      }),
      { seed: 20260523, numRuns: 500 },
    )
  })
})
