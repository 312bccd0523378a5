// Looking through a whole journal for damage while the room goes on. Old days are read by nobody for
// months; what rots there is found here and named, so that it can be mended from a backup in time.

import { join } from 'node:path'
import { wholeLines } from '../disk/sealedLines.ts'
import { type ChainRules, type Link, readRecord } from './chain.ts'
import { JournalDamage, type JournalDamageKind } from './damage.ts'
import { type ChainPlace, type DayFile, listDayFiles } from './dayFiles.ts'
import { type ChainHead, recordLine, zeroHash } from './record.ts'

export interface Finding {
  readonly file: string
  readonly line: number | null
  readonly kind: JournalDamageKind
  /** The whole of it in words. */
  readonly sentence: string
}

/** How many records are checked at a stretch before the room gets its turn. */
const recordsAtOnce = 100

export async function scrubFiles<E>(
  place: ChainPlace & ChainRules<E>,
  head: ChainHead,
  pause: () => Promise<void>,
): Promise<readonly Finding[]> {
  const findings: Finding[] = []
  const note = (error: unknown) => findings.push(findingOf(error))
  let link: Link = { version: 0, epoch: 1, hash: zeroHash }
  const files = (await listDayFiles(place)).filter((file) => file.firstVersion <= head.version)
  for (const [at, file] of files.entries()) {
    const upTo = (files[at + 1]?.firstVersion ?? head.version + 1) - 1
    if (file.firstVersion !== link.version + 1) {
      note(new JournalDamage(join(place.dir, file.name), null, 'versionGap'))
      link = unknownBefore(file.firstVersion)
    }
    try {
      link = await scrubFile(place, { file, link, upTo, pause })
    } catch (error) {
      note(error)
      // What follows is checked on its own feet: one damaged day is one finding, not two.
      link = unknownBefore(upTo + 1)
    }
  }
  if (link.version < head.version) note(new JournalDamage(place.dir, null, 'behindSnapshot'))
  return findings
}

const unknownBefore = (version: number): Link => ({ version: version - 1, epoch: 1, hash: null })

/** Damage as a finding; anything else is thrown on, for it says nothing about the file. */
function findingOf(error: unknown): Finding {
  if (!(error instanceof JournalDamage)) throw error
  const { file, line, kind, message } = error
  return { file, line, kind, sentence: message }
}

interface Scrubbing {
  readonly file: DayFile
  readonly link: Link
  /** The last version the file must hold; what follows it is still being written. */
  readonly upTo: number
  readonly pause: () => Promise<void>
}

async function scrubFile<E>(
  place: ChainPlace & ChainRules<E>,
  { file: { name }, link, upTo, pause }: Scrubbing,
): Promise<Link> {
  const file = join(place.dir, name)
  const content = (await place.disk.read(file)) ?? new Uint8Array()
  let passed = link
  let passedBytes = 0
  for (const { line, bytes, end } of wholeLines(content)) {
    if (passed.version === upTo) return passed
    if (line % recordsAtOnce === 1) await pause()
    const sealed = recordLine.read(bytes)
    if (sealed === null) throw new JournalDamage(file, line, 'badLine')
    const record = readRecord(passed, { sealed, file, line }, place)
    passed = { version: record.version, epoch: record.epoch, hash: sealed.hash }
    passedBytes = end
  }
  if (passed.version === upTo) return passed
  const isCut = passedBytes < content.length
  throw new JournalDamage(file, null, isCut ? 'badLine' : 'versionGap')
}
