// A journal rewritten by a forger who knows the format: records taken out, put in or changed, and the
// chain and every checksum made right again. The audit must tell what is wrong with it all the same.

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { crc32 } from 'node:zlib'
import { type DiskRecord, hashOf, readLine } from './journalOnDisk.ts'

/** All of `dir`'s records, in order. */
export const recordsIn = (dir: string): readonly DiskRecord[] =>
  readdirSync(dir)
    .filter((name) => name.endsWith('.journal'))
    .sort()
    .flatMap((name) => readFileSync(join(dir, name), 'utf8').split('\n').slice(0, -1))
    .map((line) => {
      const record = readLine(Buffer.from(line))
      if (record === null) throw new Error('the journal to be rewritten is damaged')
      return record
    })

/** The records as one day's file in `dir`, chained and sealed anew in the order given. */
export function writeRecords(dir: string, records: readonly DiskRecord[]): string {
  mkdirSync(dir, { recursive: true })
  let prev = '0'.repeat(64)
  const lines = records.map((record) => {
    const { version, epoch, room, atMs, cause, by, device, events } = record
    const body = { version, epoch, room, atMs, cause, by, device, events, prev }
    const text = JSON.stringify(body).slice(0, -1)
    prev = hashOf(Buffer.from(text))
    const sealed = `${text},"hash":"${prev}"`
    const crc = crc32(Buffer.from(sealed)).toString(16).padStart(8, '0')
    return `${sealed},"crc":"${crc}"}\n`
  })
  const file = join(dir, `${String(records[0]?.version ?? 1).padStart(12, '0')}-2026-05-16.journal`)
  writeFileSync(file, lines.join(''))
  return file
}

/** The same records under versions without a gap. */
export const renumbered = (records: readonly DiskRecord[]): readonly DiskRecord[] =>
  records.map((record, at) => ({ ...record, version: at + 1 }))
