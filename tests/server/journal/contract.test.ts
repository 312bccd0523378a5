// What a journal does on any disk: it keeps records in order, by day, and hands them back.

import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type DiskPlace, disks } from '../../support/disks.ts'
import {
  entries,
  entry,
  friday,
  type OpenedNotes,
  openNotes,
  saturday,
  versionsOf,
} from './notes.ts'

const zeroes = '0'.repeat(64)

describe.each(disks)('a journal on %s', (_name, open) => {
  let place: DiskPlace
  let dir: string
  beforeEach(async () => {
    place = await open()
    dir = join(place.root, 'nursery', '2026')
  })
  let opened: OpenedNotes[] = []
  afterEach(async () => {
    for (const { journal } of opened) await journal.close()
    opened = []
    await place.done()
  })
  const reopen = async () => {
    const notes = await openNotes(place.disk, dir)
    opened.push(notes)
    return notes
  }
  const journals = async () =>
    (await place.disk.list(dir)).filter((name) => name.endsWith('.journal'))

  it('begins empty, at version 0', async () => {
    const { journal, records, torn } = await reopen()
    expect(journal.head).toEqual({ version: 0, epoch: 1, hash: zeroes })
    expect([records, torn, await journals()]).toEqual([[], [], []])
  })

  it('hands back what was appended, with the same head, after opening again', async () => {
    const { journal } = await reopen()
    await journal.append(entries(1, 3), friday)
    await journal.append(entries(4, 4), friday)
    await journal.close()
    const again = await reopen()
    expect(again.journal.head).toEqual(journal.head)
    expect(again.records.map(({ prev, room, ...rest }) => rest)).toEqual(entries(1, 4))
    expect(again.records[0]).toMatchObject({ room: 'nursery', prev: zeroes })
    expect(again.torn).toEqual([])
  })

  it('goes on in the file of the day after opening again', async () => {
    const { journal } = await reopen()
    await journal.append(entries(1, 2), friday)
    await journal.close()
    const again = await reopen()
    await again.journal.append(entries(3, 3), friday)
    await again.journal.close()
    expect(await journals()).toEqual(['000000000001-2026-05-22.journal'])
    expect(versionsOf((await reopen()).records)).toEqual([1, 2, 3])
  })

  it('opens a file for each new day, and keeps the order when the clock goes back a day', async () => {
    const { journal } = await reopen()
    await journal.append(entries(1, 2), friday)
    await journal.append(entries(3, 3), saturday)
    await journal.append(entries(4, 5), friday)
    await journal.close()
    expect(await journals()).toEqual([
      '000000000001-2026-05-22.journal',
      '000000000003-2026-05-23.journal',
      '000000000004-2026-05-22.journal',
    ])
    expect(versionsOf((await reopen()).records)).toEqual([1, 2, 3, 4, 5])
  })

  it('hands over only what follows the version a snapshot vouches for', async () => {
    const { journal } = await reopen()
    const heads = [journal.head]
    for (const version of [1, 2, 3, 4, 5, 6]) {
      await journal.append([entry(version)], version < 4 ? friday : saturday)
      heads.push(journal.head)
    }
    await journal.close()
    for (const head of heads) {
      const { journal: opened, records } = await openNotes(place.disk, dir, head)
      expect(versionsOf(records)).toEqual([1, 2, 3, 4, 5, 6].slice(head.version))
      expect(opened.head).toEqual(heads[6])
    }
  })

  it('carries a raised epoch, and takes none below it', async () => {
    const { journal } = await reopen()
    await journal.append([{ ...entry(1), epoch: 3 }], friday)
    await expect(journal.append([{ ...entry(2), epoch: 2 }], friday)).rejects.toThrow('epoch')
    await journal.close()
    expect((await reopen()).journal.head.epoch).toBe(3)
  })

  it('refuses a version that does not follow, a day that is none, and what it could not read back', async () => {
    const { journal } = await reopen()
    await expect(journal.append([entry(2)], friday)).rejects.toThrow('record 2 follows 0')
    await expect(journal.append([entry(1)], '../1')).rejects.toThrow('is a day')
    const unreadable = { ...entry(1), events: [{ type: 'Noted', v: 1, n: Number.NaN }] as const }
    await expect(journal.append([unreadable], friday)).rejects.toThrow()
    await expect(journal.append([{ ...entry(1), device: 'nobody' }], friday)).rejects.toThrow()
    expect(await journals()).toEqual([])
    expect(journal.failure).toBeNull()
    await journal.append([entry(1)], friday)
    expect(journal.head.version).toBe(1)
  })

  it('refuses a record of more than a megabyte, which no turn of a room can make', async () => {
    const { journal } = await reopen()
    const events = Array.from({ length: 40_000 }, (_, n) => ({ type: 'Noted', v: 1, n }) as const)
    await expect(journal.append([{ ...entry(1), events }], friday)).rejects.toThrow('bytes long')
  })

  it('takes one append at a time', async () => {
    const { journal } = await reopen()
    const first = journal.append([entry(1)], friday)
    await expect(journal.append([entry(1)], friday)).rejects.toThrow('one append at a time')
    await first
    expect(journal.failure).toBeNull()
  })

  it('appends nothing for no entries', async () => {
    const { journal } = await reopen()
    await journal.append([], friday)
    expect(await journals()).toEqual([])
  })

  it('reads pages by version, across days, up to a limit and never beyond the head', async () => {
    const { journal } = await reopen()
    await journal.append(entries(1, 3), friday)
    await journal.append(entries(4, 6), saturday)
    await journal.append(entries(7, 8), friday)
    const page = async (from: number, to: number, limit = 100) =>
      versionsOf(await journal.readRecords({ from, to, limit }))
    expect(await page(1, 8)).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
    expect(await page(3, 4)).toEqual([3, 4])
    expect(await page(5, 5)).toEqual([5])
    expect(await page(2, 8, 3)).toEqual([2, 3, 4])
    expect(await page(7, 100)).toEqual([7, 8])
    expect(await page(0, 1)).toEqual([1])
    expect(await page(9, 12)).toEqual([])
    expect(await page(5, 4)).toEqual([])
    expect(await page(1, 8, 0)).toEqual([])
    const [record] = await journal.readRecords({ from: 5, to: 5, limit: 1 })
    expect(record).toMatchObject(entry(5))
  })

  it('finds nothing when it scrubs a sound journal, and lets others go first meanwhile', async () => {
    const { journal } = await reopen()
    await journal.append(entries(1, 250), friday)
    await journal.append(entries(251, 252), saturday)
    let pauses = 0
    const findings = await journal.scrub(async () => {
      pauses += 1
    })
    expect(findings).toEqual([])
    expect(pauses).toBe(4)
  })
})
