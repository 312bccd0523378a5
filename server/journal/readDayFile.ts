// One file of the journal as lines: the sound ones, and what is left at its end. Damage before a sound
// line is refused here, whoever reads.

import { join } from 'node:path'
import { readSealedLines, type SealedLines } from '../disk/sealedLines.ts'
import { JournalDamage } from './damage.ts'
import type { ChainPlace, DayFile } from './dayFiles.ts'
import { recordLine, type SealedRecord } from './record.ts'

export interface ReadDayFile {
  readonly file: DayFile
  readonly bytes: Uint8Array
  readonly lines: SealedLines<SealedRecord>
}

export async function readDayFile({ disk, dir }: ChainPlace, file: DayFile): Promise<ReadDayFile> {
  const bytes = (await disk.read(join(dir, file.name))) ?? new Uint8Array()
  const lines = readSealedLines(bytes, recordLine)
  if (lines.rest?.isBeforeSoundLine) {
    throw new JournalDamage(join(dir, file.name), lines.sound.length + 1, 'badLine')
  }
  return { file, bytes, lines }
}
