// The format of a record, fixed from the first day: files written today are read for ever.

import { createHash } from 'node:crypto'
import { crc32 } from 'node:zlib'
import { expect, it } from 'vitest'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { seededChoose } from '../../support/seededChoose.ts'
import { entry, friday, openNotes } from './notes.ts'

const path = '/r/000000000001-2026-05-22.journal'

const written =
  '{"version":1,"epoch":1,"room":"nursery","atMs":1779451201000,' +
  '"cause":{"type":"command","lane":"d1","n":1},"by":null,"device":"d1",' +
  '"events":[{"type":"Noted","v":1,"n":1}],' +
  '"prev":"0000000000000000000000000000000000000000000000000000000000000000"'

it('writes a record as one line of JSON closed by its hash and its checksum', async () => {
  const disk = new FakeDisk({ choose: seededChoose(1) })
  const { journal } = await openNotes(disk, '/r')
  await journal.append([entry(1)], friday)
  const hash = createHash('sha256').update(`${written}}`).digest('hex')
  const sealed = `${written},"hash":"${hash}"`
  const crc = crc32(sealed).toString(16).padStart(8, '0')
  expect(Buffer.from(disk.files.get(path) ?? []).toString()).toBe(`${sealed},"crc":"${crc}"}\n`)
  expect(journal.head.hash).toBe(hash)
})

it('reads a line that an earlier program wrote', async () => {
  const disk = new FakeDisk({ choose: seededChoose(1) })
  const kept = `${written},"hash":"b8f7ece32fda6962d11112de26f8e39bf6c9a97ba388f7d833099bf06641023a","crc":"fbe3b957"}\n`
  disk.place(path, Buffer.from(kept))
  const { records, journal } = await openNotes(disk, '/r')
  expect(records).toMatchObject([entry(1)])
  expect(journal.head).toEqual({
    version: 1,
    epoch: 1,
    hash: 'b8f7ece32fda6962d11112de26f8e39bf6c9a97ba388f7d833099bf06641023a',
  })
})
