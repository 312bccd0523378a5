// Pages of the past, by version: the tail a returning screen missed, and the archive. Only the files
// that hold the page are read; within one, the nth line is the nth version, so lines before the page
// are skipped unread.

import { join } from 'node:path'
import { clamp } from '../../shared/base/values.ts'
import { wholeLines } from '../disk/sealedLines.ts'
import { type ChainRules, type Link, readRecord } from './chain.ts'
import { JournalDamage } from './damage.ts'
import { type ChainPlace, type DayFile, filesFrom, listDayFiles } from './dayFiles.ts'
import { type ChainHead, type JournalRecord, recordLine } from './record.ts'

/** Both ends are included. */
export interface RecordRange {
  readonly from: number
  readonly to: number
  readonly limit: number
}

/** More is asked for again: without an end, one page could take as much memory as the whole past. */
export const recordsPerPageMax = 1_000

export async function readRange<E>(
  place: ChainPlace & ChainRules<E>,
  { from, to, limit }: RecordRange,
  head: ChainHead,
): Promise<readonly JournalRecord<E>[]> {
  const first = Math.max(from, 1)
  const last = Math.min(to, head.version, first + clamp(limit, 0, recordsPerPageMax) - 1)
  const records: JournalRecord<E>[] = []
  if (last < first) return records
  let link: Link = { version: first - 1, epoch: 1, hash: null }
  for (const file of filesFrom(await listDayFiles(place), first)) {
    if (file.firstVersion > last) break
    for (const { sealed, ...at } of await linesOf(place, file, { first, last })) {
      const record = readRecord(link, { sealed, ...at }, place)
      records.push(record)
      link = { version: record.version, epoch: record.epoch, hash: sealed.hash }
    }
  }
  if (link.version < last) throw new JournalDamage(place.dir, null, 'versionGap')
  return records
}

async function linesOf(
  { disk, dir }: ChainPlace,
  { name, firstVersion }: DayFile,
  { first, last }: { readonly first: number; readonly last: number },
) {
  const file = join(dir, name)
  const lines = []
  for (const { line, bytes } of wholeLines((await disk.read(file)) ?? new Uint8Array())) {
    const version = firstVersion + line - 1
    if (version > last) break
    if (version < first) continue
    const sealed = recordLine.read(bytes)
    if (sealed === null) throw new JournalDamage(file, line, 'badLine')
    lines.push({ sealed, file, line })
  }
  return lines
}
