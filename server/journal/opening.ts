// Reading a journal when it is opened: from what a snapshot vouches for to the last sound record. This
// only looks; nothing on disk is touched before all of it has been found in order (`repair.ts`).
//
//   …23.journal  …57.journal  …91.journal
//                   ▲ after      sound sound | torn        kept beside, cut off, reported
//                                                          a newest file with nothing sound in it is
//                                                          what a crash leaves of a beginning: removed

import { join } from 'node:path'
import { type ChainRules, type Link, nextLink, readRecord } from './chain.ts'
import { JournalDamage } from './damage.ts'
import { type ChainPlace, type DayFile, filesFrom, listDayFiles } from './dayFiles.ts'
import { type ReadDayFile, readDayFile } from './readDayFile.ts'
import type { ChainHead, JournalRecord } from './record.ts'
import { planRepair, type Repair } from './repair.ts'

export interface Found {
  readonly head: ChainHead
  /** The file with the last record, which the day's next record goes to; null when there is none. */
  readonly last: DayFile | null
  readonly repair: Repair
}

/**
 * Hands every record after `after` to `onRecord`, in order, and says where the journal ends.
 * Throws `JournalDamage`; `onRecord` may have been called by then.
 */
export async function readFrom<E>(
  place: ChainPlace,
  after: ChainHead,
  reader: ChainRules<E> & { readonly onRecord: (record: JournalRecord<E>) => void },
): Promise<Found> {
  const files = filesFrom(await listDayFiles(place), Math.max(after.version, 1))
  const first = files[0]?.firstVersion ?? 1
  // What comes before `after` in its file is vouched for by its hash, through the chain.
  let link: Link = first > after.version ? after : { version: first - 1, epoch: 1, hash: null }
  const residue: ReadDayFile[] = []
  let last: ReadDayFile | null = null
  for (const file of files) {
    const read = await readDayFile(place, file)
    if (read.lines.sound.length === 0) {
      residue.push(read)
      continue
    }
    mustFollow(place, { last, residue, read, link })
    link = passed(link, read, { after, reader, dir: place.dir })
    last = read
  }
  mustReach(place, link, after)
  mustBeEnd(place, last, residue)
  const head = { version: link.version, epoch: link.epoch, hash: link.hash ?? after.hash }
  return { head, last: last?.file ?? null, repair: planRepair(head, after, { last, residue }) }
}

interface Following {
  readonly last: ReadDayFile | null
  readonly residue: readonly ReadDayFile[]
  readonly read: ReadDayFile
  readonly link: Link
}

/** A file with records goes on where the last left off, and what lies between holds none. */
function mustFollow({ dir }: ChainPlace, { last, residue, read, link }: Following): void {
  if (last?.lines.rest) {
    throw new JournalDamage(join(dir, last.file.name), last.lines.sound.length + 1, 'tornBeforeEnd')
  }
  const lost = residue.find(
    ({ file, bytes }) => bytes.length > 0 && file.firstVersion !== read.file.firstVersion,
  )
  if (lost !== undefined) throw new JournalDamage(join(dir, lost.file.name), 1, 'badLine')
  if (read.file.firstVersion !== link.version + 1) {
    throw new JournalDamage(join(dir, read.file.name), 1, 'versionGap')
  }
}

interface Passing<E> {
  readonly after: ChainHead
  readonly dir: string
  readonly reader: ChainRules<E> & { readonly onRecord: (record: JournalRecord<E>) => void }
}

function passed<E>(start: Link, read: ReadDayFile, { after, reader, dir }: Passing<E>): Link {
  const file = join(dir, read.file.name)
  let link = start
  read.lines.sound.forEach((sealed, at) => {
    const place = { file, line: at + 1 }
    if (link.version >= after.version) {
      const record = readRecord(link, { sealed, ...place }, reader)
      reader.onRecord(record)
      link = { version: record.version, epoch: record.epoch, hash: sealed.hash }
      return
    }
    link = nextLink(link, sealed, place)
    if (link.version !== after.version) return
    if (link.hash !== after.hash) throw new JournalDamage(file, at + 1, 'otherHistory')
    link = after
  })
  return link
}

function mustReach({ dir }: ChainPlace, link: Link, after: ChainHead): void {
  if (link.version < after.version) throw new JournalDamage(dir, null, 'behindSnapshot')
}

/** A torn end may be followed by a file that was only just begun, and by nothing else. */
function mustBeEnd(
  { dir }: ChainPlace,
  last: ReadDayFile | null,
  residue: readonly ReadDayFile[],
): void {
  const begun = residue.find(({ bytes }) => bytes.length > 0)
  if (last?.lines.rest && begun !== undefined && begun.file.name > last.file.name) {
    throw new JournalDamage(join(dir, last.file.name), last.lines.sound.length + 1, 'tornBeforeEnd')
  }
}
