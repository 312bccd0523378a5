// Making journals and breaking them, for the tests of what opening makes of it: the bytes of a sound
// journal, a disk that holds given files, and records that are sealed rightly but say something wrong.

import { type JournalRecord, sealRecord, zeroHash } from '../../../server/journal/record.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { seededChoose } from '../../support/seededChoose.ts'
import { entries, entry, friday, type Note, openNotes, room, saturday } from './notes.ts'

export const dir = '/r'
export const fridayFile = '000000000001-2026-05-22.journal'

export const freshDisk = async (): Promise<FakeDisk> => {
  const disk = new FakeDisk({ choose: seededChoose(5) })
  await disk.makeDir(dir)
  return disk
}

/** A disk that holds these files in the journal's folder, and nothing else. */
export async function diskWith(files: Readonly<Record<string, Uint8Array>>): Promise<FakeDisk> {
  const disk = await freshDisk()
  for (const [name, bytes] of Object.entries(files)) disk.place(`${dir}/${name}`, bytes)
  return disk
}

export const fileOn = (disk: FakeDisk, name: string): Buffer =>
  Buffer.from(disk.files.get(`${dir}/${name}`) ?? [])

/** Friday's file with so many records. */
export async function soundFile(records: number): Promise<Buffer> {
  const disk = await freshDisk()
  const { journal } = await openNotes(disk, dir)
  await journal.append(entries(1, records), friday)
  return fileOn(disk, fridayFile)
}

/** Three days' files: Friday 1–2, Saturday 3–4, and Friday again, by a clock set back, 5–6. */
export async function threeFiles(): Promise<Record<string, Buffer>> {
  const disk = await freshDisk()
  const { journal } = await openNotes(disk, dir)
  await journal.append(entries(1, 2), friday)
  await journal.append(entries(3, 4), saturday)
  await journal.append(entries(5, 6), friday)
  return Object.fromEntries(
    (await disk.list(dir)).map((name) => [name, fileOn(disk, name)] as const),
  )
}

/** Where each line of a file starts, and its end. */
export const lineStarts = (file: Buffer): readonly number[] => {
  const starts = [0]
  for (let at = file.indexOf(10); at !== -1; at = file.indexOf(10, at + 1)) starts.push(at + 1)
  return starts
}

export const at = (numbers: readonly number[], index: number): number => numbers.at(index) ?? 0

/** A chain of records, each changed as told, all rightly sealed: what a wrong program would write. */
export function forged(
  ...changes: readonly (Partial<JournalRecord<Note>> | Readonly<Record<string, unknown>>)[]
): Buffer {
  let prev = zeroHash
  const lines = changes.map((change, index) => {
    const record = { ...entry(index + 1), room, prev, ...change } as JournalRecord<Note>
    const { line, hash } = sealRecord(record)
    prev = hash
    return `${line}\n`
  })
  return Buffer.from(lines.join(''))
}
