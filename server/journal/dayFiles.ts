// The files of a journal by name. A name starts with the first version the file holds, so that the
// order of names is the order of records whatever the clock did, and which file holds a version can
// be told without opening any.
//
//   000000000001-2026-05-22.journal   000000000123-2026-05-23.journal   …

import { join } from 'node:path'
import type { Disk } from '../disk/disk.ts'
import { JournalDamage } from './damage.ts'

export interface ChainPlace {
  readonly disk: Disk
  /** The folder of one season of one room. */
  readonly dir: string
}

export interface DayFile {
  readonly name: string
  readonly firstVersion: number
  readonly dayLabel: string
}

const ending = '.journal'
const naming = /^(\d{12})-(\d{4}-\d{2}-\d{2})\.journal$/

export const isDayLabel = (label: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(label)

export const dayFile = (firstVersion: number, dayLabel: string): DayFile => ({
  name: `${String(firstVersion).padStart(12, '0')}-${dayLabel}${ending}`,
  firstVersion,
  dayLabel,
})

/** In order of versions. Throws `JournalDamage` on a journal whose name says no version. */
export async function listDayFiles({ disk, dir }: ChainPlace): Promise<readonly DayFile[]> {
  const names = (await disk.list(dir)).filter((name) => name.endsWith(ending))
  return names.map((name) => {
    const [, first, dayLabel] = naming.exec(name) ?? []
    if (first === undefined || dayLabel === undefined) {
      throw new JournalDamage(join(dir, name), null, 'misnamedFile')
    }
    return dayFile(Number(first), dayLabel)
  })
}

/** The files from the one that may hold `version` on; all of them when none starts so early. */
export function filesFrom(files: readonly DayFile[], version: number): readonly DayFile[] {
  const holder = files.findLast((file) => file.firstVersion <= version)
  return holder === undefined
    ? files
    : files.filter((file) => file.firstVersion >= holder.firstVersion)
}
