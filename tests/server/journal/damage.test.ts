// Whatever is wrong with a journal is refused by its name, with the file and the line: never read as
// a different board.

import { describe, expect, it, vi } from 'vitest'
import { JournalDamage } from '../../../server/journal/damage.ts'
import { entry, friday, openNotes, saturday } from './notes.ts'
import {
  at,
  dir,
  diskWith,
  forged,
  freshDisk,
  fridayFile,
  lineStarts,
  soundFile,
  threeFiles,
} from './wreckage.ts'

// Thousands of small openings; a machine with much else to do takes its time over them.
vi.setConfig({ testTimeout: 30_000 })

const saturdayFile = '000000000003-2026-05-23.journal'
const lastFile = '000000000005-2026-05-22.journal'

async function opening(files: Readonly<Record<string, Uint8Array>>): Promise<unknown> {
  const disk = await diskWith(files)
  return openNotes(disk, dir).then(
    () => 'opened',
    (error: unknown) => error,
  )
}

describe('a changed byte', () => {
  it('of a record that is not the last is refused, every bit of every byte', async () => {
    const whole = await soundFile(3)
    for (let byte = 0; byte < at(lineStarts(whole), 2); byte += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        const flipped = Buffer.from(whole)
        flipped[byte] = (flipped[byte] ?? 0) ^ (1 << bit)
        const refused = await opening({ [fridayFile]: flipped })
        expect(refused).toBeInstanceOf(JournalDamage)
        expect(refused).toMatchObject({ kind: 'badLine', file: `${dir}/${fridayFile}` })
      }
    }
  })

  it('of a day that is not the last is refused, every byte', async () => {
    const files = await threeFiles()
    for (const name of [fridayFile, saturdayFile]) {
      const whole = files[name] ?? Buffer.alloc(0)
      for (let byte = 0; byte < whole.length; byte += 1) {
        const flipped = Buffer.from(whole)
        flipped[byte] = (flipped[byte] ?? 0) ^ 1
        expect(await opening({ ...files, [name]: flipped })).toBeInstanceOf(JournalDamage)
      }
    }
  })

  it('of a day with one record alone is refused when others follow', async () => {
    const disk = await freshDisk()
    const { journal } = await openNotes(disk, dir)
    await journal.append([entry(1)], friday)
    await journal.append([entry(2)], saturday)
    const path = `${dir}/${fridayFile}`
    const flipped = Buffer.from(disk.files.get(path) ?? [])
    flipped[20] = (flipped[20] ?? 0) ^ 1
    disk.place(path, flipped)
    await expect(openNotes(disk, dir)).rejects.toMatchObject({ kind: 'badLine', line: 1 })
  })
})

describe('missing records', () => {
  it('are refused where a line, a file or the beginning is gone', async () => {
    const whole = await soundFile(3)
    const starts = lineStarts(whole)
    const without = (line: number) =>
      Buffer.concat([whole.subarray(0, at(starts, line)), whole.subarray(at(starts, line + 1))])
    for (const line of [0, 1]) {
      expect(await opening({ [fridayFile]: without(line) })).toMatchObject({ kind: 'brokenChain' })
    }
    const { [saturdayFile]: saturdays, [fridayFile]: fridays, ...last } = await threeFiles()
    if (saturdays === undefined || fridays === undefined) throw new Error('three files')
    const gap = { kind: 'versionGap', file: `${dir}/${lastFile}` }
    expect(await opening({ [fridayFile]: fridays, ...last })).toMatchObject(gap)
    expect(await opening({ ...last })).toMatchObject(gap)
    const emptied = { [fridayFile]: fridays, [saturdayFile]: Buffer.alloc(0), ...last }
    expect(await opening(emptied)).toMatchObject(gap)
  })

  it('are refused where a snapshot vouches for more than the journal holds', async () => {
    const disk = await diskWith({ [fridayFile]: await soundFile(3) })
    const beyond = { version: 4, epoch: 1, hash: 'a'.repeat(64) }
    await expect(openNotes(disk, dir, beyond)).rejects.toMatchObject({ kind: 'behindSnapshot' })
    const nothing = await freshDisk()
    await expect(openNotes(nothing, dir, beyond)).rejects.toMatchObject({ kind: 'behindSnapshot' })
  })

  it('are refused where the file a snapshot goes on from is gone', async () => {
    const disk = await diskWith(await threeFiles())
    const { records } = await openNotes(disk, dir)
    const prev = records[2]?.prev ?? ''
    await disk.remove(`${dir}/${fridayFile}`)
    await disk.remove(`${dir}/${saturdayFile}`)
    const after = { version: 2, epoch: 1, hash: prev }
    await expect(openNotes(disk, dir, after)).rejects.toMatchObject({ kind: 'versionGap' })
  })
})

describe('records that are whole but wrong', () => {
  const forgeries = [
    ['of another room', [{}, { room: 'annexe' }], 'wrongRoom', 2],
    ['with a version left out', [{}, { version: 3 }], 'versionGap', 2],
    ['of an earlier epoch', [{ epoch: 2 }, { epoch: 1 }], 'epochBack', 2],
    ['that follow from another record', [{}, { prev: 'a'.repeat(64) }], 'brokenChain', 2],
    ['that begin from something', [{ prev: 'a'.repeat(64) }], 'brokenChain', 1],
    ['of an unknown event', [{ events: [{ type: 'Moulted', v: 1 }] }], 'unknownEvent', 1],
    ['of a newer event', [{ events: [{ type: 'Noted', v: 2, n: 1 }] }], 'unknownEvent', 1],
  ] as const
  it.each(forgeries)('%s are refused', async (_what, changes, kind, line) => {
    // A sound record after each, so that none can pass for a torn end.
    const refused = await opening({ [fridayFile]: forged(...changes, { version: 3 }) })
    expect(refused).toBeInstanceOf(JournalDamage)
    expect(refused).toMatchObject({ kind, line, file: `${dir}/${fridayFile}` })
  })

  it('by a newer program, with a field or a cause this one does not know, are refused', async () => {
    const { createHash } = await import('node:crypto')
    const { seal } = await import('../../../server/disk/seal.ts')
    const line = (await soundFile(1)).toString()
    const body = line.slice(0, line.indexOf(',"hash"'))
    for (const newer of [
      body.replace('"by":null', '"by":null,"mood":"good"'),
      body.replace(/"cause":\{[^}]*\}/, '"cause":{"type":"tide"}'),
    ]) {
      expect(newer).not.toBe(body)
      const hash = createHash('sha256').update(`${newer}}`).digest('hex')
      const file = Buffer.from(`${seal(`${newer},"hash":"${hash}"}`)}\n`)
      expect(await opening({ [fridayFile]: file })).toMatchObject({
        kind: 'unknownFormat',
        line: 1,
      })
    }
  })

  it('with a hash that is not theirs are no records', async () => {
    const { seal } = await import('../../../server/disk/seal.ts')
    const line = (await soundFile(1)).toString()
    const body = line.slice(0, line.indexOf(',"hash"'))
    const file = Buffer.from(`${seal(`${body},"hash":"${'b'.repeat(64)}"}`)}\n`)
    const { records, torn } = await openNotes(await diskWith({ [fridayFile]: file }), dir)
    expect([records, torn.length]).toEqual([[], 1])
  })
})

describe('other ways to be wrong', () => {
  it('a journal whose name says no version is refused', async () => {
    const whole = await soundFile(1)
    const named = await opening({ 'friday.journal': whole })
    expect(named).toMatchObject({ kind: 'misnamedFile', line: null })
  })

  it('a file under the name of another version is refused', async () => {
    const whole = await soundFile(1)
    expect(await opening({ '000000000002-2026-05-22.journal': whole })).toMatchObject({
      kind: 'versionGap',
    })
  })

  it('another history than the one a snapshot was taken of is refused, in the file or before it', async () => {
    const disk = await diskWith(await threeFiles())
    for (const version of [2, 3, 6]) {
      const other = { version, epoch: 1, hash: 'c'.repeat(64) }
      await expect(openNotes(disk, dir, other)).rejects.toMatchObject({ kind: 'otherHistory' })
    }
  })

  it('says in one sentence which file and line, and what is the matter', async () => {
    const refused = await opening({ [fridayFile]: forged({ room: 'annexe' }) })
    expect(String(refused)).toBe(
      `JournalDamage: ${dir}/${fridayFile}, line 1: the record is of another room`,
    )
  })
})

describe('reading pages and scrubbing', () => {
  it('reads a damaged page as a refusal, and a sound page of the same day as itself', async () => {
    const disk = await diskWith({ [fridayFile]: await soundFile(4) })
    const { journal } = await openNotes(disk, dir)
    const flipped = await soundFile(4)
    const byte = at(lineStarts(flipped), 1) + 30
    flipped[byte] = (flipped[byte] ?? 0) ^ 1
    disk.place(`${dir}/${fridayFile}`, flipped)
    const page = (from: number, to: number) => journal.readRecords({ from, to, limit: 10 })
    await expect(page(1, 4)).rejects.toMatchObject({ kind: 'badLine', line: 2 })
    expect((await page(3, 4)).length).toBe(2)
  })

  it('reads a page whose file is gone, or cut short, as a refusal', async () => {
    const disk = await diskWith(await threeFiles())
    const { journal } = await openNotes(disk, dir)
    const last = disk.files.get(`${dir}/${lastFile}`) ?? new Uint8Array()
    disk.place(`${dir}/${lastFile}`, last.subarray(0, -4))
    await expect(journal.readRecords({ from: 5, to: 6, limit: 10 })).rejects.toBeInstanceOf(
      JournalDamage,
    )
    await disk.remove(`${dir}/${saturdayFile}`)
    await expect(journal.readRecords({ from: 2, to: 5, limit: 10 })).rejects.toMatchObject({
      kind: 'brokenChain',
    })
    await disk.remove(`${dir}/${lastFile}`)
    await disk.remove(`${dir}/${fridayFile}`)
    await expect(journal.readRecords({ from: 5, to: 5, limit: 10 })).rejects.toMatchObject({
      kind: 'versionGap',
    })
  })

  it('finds every damaged file by name, each once, and goes on to the next', async () => {
    const files = await threeFiles()
    const disk = await diskWith(files)
    const { journal } = await openNotes(disk, dir)
    const found = async () => (await journal.scrub(async () => undefined)).map(({ kind }) => kind)
    for (const name of [fridayFile, lastFile]) {
      const flipped = Buffer.from(files[name] ?? [])
      flipped[40] = (flipped[40] ?? 0) ^ 1
      disk.place(`${dir}/${name}`, flipped)
    }
    const findings = await journal.scrub(async () => undefined)
    expect(findings).toMatchObject([
      { file: `${dir}/${fridayFile}`, line: 1, kind: 'badLine' },
      { file: `${dir}/${lastFile}`, line: 1, kind: 'badLine' },
    ])
    expect(findings[0]?.sentence).toContain('a record is damaged')
    disk.place(`${dir}/${fridayFile}`, files[fridayFile]?.subarray(0, -1) ?? Buffer.alloc(0))
    disk.place(`${dir}/${lastFile}`, files[lastFile] ?? Buffer.alloc(0))
    expect(await found()).toEqual(['badLine'])
    await disk.remove(`${dir}/${fridayFile}`)
    expect(await found()).toEqual(['versionGap'])
    for (const name of [saturdayFile, lastFile]) await disk.remove(`${dir}/${name}`)
    expect(await found()).toEqual(['behindSnapshot'])
  })

  it('takes no notice of a record that is just being written', async () => {
    const disk = await diskWith(await threeFiles())
    const { journal } = await openNotes(disk, dir)
    const last = Buffer.from(disk.files.get(`${dir}/${lastFile}`) ?? [])
    for (const underWay of ['{"version":7,', '{"version":7,"epoch":1}\n']) {
      disk.place(`${dir}/${lastFile}`, Buffer.concat([last, Buffer.from(underWay)]))
      expect(await journal.scrub(async () => undefined)).toEqual([])
      expect((await journal.readRecords({ from: 5, to: 9, limit: 9 })).length).toBe(2)
    }
  })
})
