// What a crash leaves at the end of a journal: the torn end is cut off, kept beside and reported, and
// everything before it stands.

import { expect, it, vi } from 'vitest'
import { WriteFailed } from '../../../server/disk/appender.ts'
import { JournalDamage } from '../../../server/journal/damage.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { seededChoose } from '../../support/seededChoose.ts'
import { entries, entry, friday, openNotes, saturday, versionsOf } from './notes.ts'
import {
  at,
  dir,
  diskWith,
  fileOn,
  freshDisk,
  fridayFile,
  lineStarts,
  soundFile,
  threeFiles,
} from './wreckage.ts'

// Thousands of small openings; a machine with much else to do takes its time over them.
vi.setConfig({ testTimeout: 30_000 })

it('opens before the torn record, cut at every byte of the last two, and keeps the tail', async () => {
  const whole = await soundFile(4)
  const starts = lineStarts(whole)
  for (let cut = at(starts, 2); cut < whole.length; cut += 1) {
    const sound = cut < at(starts, 3) ? 2 : 3
    const disk = await diskWith({ [fridayFile]: whole.subarray(0, cut) })
    const { journal, records, torn } = await openNotes(disk, dir)
    const soundBytes = at(starts, sound)
    expect(versionsOf(records)).toEqual([1, 2, 3].slice(0, sound))
    expect(journal.head.version).toBe(sound)
    expect(fileOn(disk, fridayFile).equals(whole.subarray(0, soundBytes))).toBe(true)
    if (cut === soundBytes) expect(torn).toEqual([])
    else {
      const kept = `${fridayFile}.torn-${sound + 1}`
      expect(torn).toEqual([{ path: `${dir}/${kept}`, lengthBytes: cut - soundBytes }])
      expect(fileOn(disk, kept).equals(whole.subarray(soundBytes, cut))).toBe(true)
    }
  }
})

it('takes the next record where the torn one was cut off', async () => {
  const whole = await soundFile(3)
  const disk = await diskWith({ [fridayFile]: whole.subarray(0, -5) })
  const { journal } = await openNotes(disk, dir)
  await journal.append([entry(3, 33)], friday)
  const { records, torn } = await openNotes(disk.crash(), dir)
  expect(records.map((record) => record.events[0]?.n)).toEqual([1, 2, 33])
  expect(torn).toEqual([])
})

it('never takes a last record with any bit of it changed: cut off as torn', async () => {
  const whole = await soundFile(2)
  for (let byte = at(lineStarts(whole), 1); byte < whole.length; byte += 1) {
    for (let bit = 0; bit < 8; bit += 1) {
      const flipped = Buffer.from(whole)
      flipped[byte] = (flipped[byte] ?? 0) ^ (1 << bit)
      const disk = await diskWith({ [fridayFile]: flipped })
      const { records, torn } = await openNotes(disk, dir)
      expect(versionsOf(records)).toEqual([1])
      expect(torn.length).toBe(1)
    }
  }
})

it('cuts off garbage of any kind, line feeds and all, while nothing sound is in it', async () => {
  const whole = await soundFile(2)
  const garbage = ['\0\0\0\0', '\n\n', '{"version":3,\n{"version":4\n', '{"version":', '\n{}\nx']
  for (const one of garbage) {
    const disk = await diskWith({ [fridayFile]: Buffer.concat([whole, Buffer.from(one)]) })
    const { records, torn } = await openNotes(disk, dir)
    expect(versionsOf(records)).toEqual([1, 2])
    expect(torn).toMatchObject([{ lengthBytes: one.length }])
  }
})

it('removes a newest file that holds nothing, and cuts the torn end before it', async () => {
  const whole = await soundFile(2)
  const begun = '000000000003-2026-05-23.journal'
  const disk = await diskWith({ [fridayFile]: whole.subarray(0, -1), [begun]: Buffer.alloc(0) })
  const { records, torn } = await openNotes(disk, dir)
  expect(versionsOf(records)).toEqual([1])
  expect(torn).toMatchObject([{ path: `${dir}/${fridayFile}.torn-2` }])
  expect(await disk.list(dir)).toEqual([fridayFile, `${fridayFile}.torn-2`])
})

it('removes a newest file that holds a torn record alone, and keeps that beside', async () => {
  const files = await threeFiles()
  const newest = '000000000007-2026-05-23.journal'
  const half = Buffer.from('{"version":7,"epo')
  const disk = await diskWith({ ...files, [newest]: half })
  const { journal, torn } = await openNotes(disk, dir)
  expect(journal.head.version).toBe(6)
  expect(torn).toEqual([{ path: `${dir}/${newest}.torn-7`, lengthBytes: half.length }])
  expect(await disk.list(dir)).not.toContain(newest)
  expect(fileOn(disk, `${newest}.torn-7`)).toEqual(half)
})

it('opens past the torn beginning of a file whose day was then begun again under another label', async () => {
  const disk = await freshDisk()
  const { journal } = await openNotes(disk, dir)
  await journal.append(entries(1, 2), friday)
  await journal.append(entries(3, 3), saturday)
  for (const content of ['', '{"version":3,"ep']) {
    const residue = '000000000003-2026-05-22.journal'
    disk.place(`${dir}/${residue}`, Buffer.from(content))
    const { records } = await openNotes(disk, dir)
    expect(versionsOf(records)).toEqual([1, 2, 3])
    expect(await disk.list(dir)).not.toContain(residue)
  }
})

it('opens from a snapshot in a file that shares its first version with one only just begun', async () => {
  const files = await threeFiles()
  const disk = await diskWith({ ...files, '000000000005-2026-05-23.journal': Buffer.alloc(0) })
  const { journal } = await openNotes(disk, dir)
  disk.place(`${dir}/000000000005-2026-05-23.journal`, Buffer.alloc(0))
  const again = await openNotes(disk, dir, journal.head)
  expect([again.journal.head, again.records]).toEqual([journal.head, []])
})

it('has a file that was only just begun stay away once it was removed', async () => {
  const begun = '000000000003-2026-05-23.journal'
  for (let seed = 1; seed <= 60; seed += 1) {
    const disk = new FakeDisk({ choose: seededChoose(seed) })
    await disk.makeDir(dir)
    disk.place(`${dir}/${fridayFile}`, await soundFile(2))
    disk.place(`${dir}/${begun}`, Buffer.from('{"version":3,"e'))
    const { journal } = await openNotes(disk, dir)
    await journal.append([entry(3)], friday)
    disk.setCapacity(disk.usedBytes + 20)
    await expect(journal.append([entry(4)], friday)).rejects.toBeInstanceOf(WriteFailed)
    const after = disk.crash()
    after.heal()
    expect(versionsOf((await openNotes(after, dir)).records)).toEqual([1, 2, 3])
  }
})

it('refuses a torn end that a later file goes on after', async () => {
  for (const name of ['000000000001-2026-05-22.journal', '000000000003-2026-05-23.journal']) {
    const files = await threeFiles()
    const disk = await diskWith({
      ...files,
      [name]: files[name]?.subarray(0, -3) ?? Buffer.alloc(0),
    })
    const refused = openNotes(disk, dir)
    await expect(refused).rejects.toBeInstanceOf(JournalDamage)
    await expect(refused).rejects.toMatchObject({
      kind: 'tornBeforeEnd',
      line: 2,
      file: `${dir}/${name}`,
    })
  }
})

it('refuses a torn end before a file that was begun with more than nothing', async () => {
  const whole = await soundFile(2)
  const disk = await diskWith({
    [fridayFile]: whole.subarray(0, -1),
    '000000000003-2026-05-23.journal': Buffer.from('{"version":3'),
  })
  await expect(openNotes(disk, dir)).rejects.toMatchObject({ kind: 'tornBeforeEnd', line: 2 })
})

it('changes nothing on disk where it refuses', async () => {
  const files = await threeFiles()
  const name = '000000000003-2026-05-23.journal'
  const disk = await diskWith({
    ...files,
    [name]: files[name]?.subarray(0, -3) ?? Buffer.alloc(0),
    '000000000007-2026-05-23.journal': Buffer.alloc(0),
  })
  const before = disk.files
  await expect(openNotes(disk, dir)).rejects.toBeInstanceOf(JournalDamage)
  expect(disk.files).toEqual(before)
})
