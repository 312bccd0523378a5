// The two ways anything becomes durable: bytes written to the last one, and a whole file replaced in
// one step. A failure is thrown on as it came and never retried: after a failed sync the machine may
// call the lost bytes clean.

import { dirname } from 'node:path'
import type { Disk, OpenFile } from './disk.ts'

/** A disk that takes so many bites of one write is as good as stuck, and whoever waits must hear it. */
export const shortWritesMax = 64

/** Writes all of it, in as many bites as the disk wants. Not durable yet: that is `sync`. */
export async function writeAll(file: OpenFile, bytes: Uint8Array): Promise<void> {
  let done = 0
  for (let bites = 0; done < bytes.length; bites += 1) {
    if (bites > shortWritesMax) throw new Error(`the disk took ${bites} bites of one write`)
    const taken = await file.write(bytes.subarray(done))
    if (taken <= 0) throw new Error('the disk took no byte of a write')
    done += taken
  }
}

/** Where the new content stands until it is whole; a leftover of a crash is thrown away. */
export const asidePath = (path: string): string => `${path}.aside`

/**
 * The file holds either its old content or `bytes`, whatever happens; once this returns, `bytes` for
 * good. Callers see to it that one path is not replaced by two at once.
 */
export async function replaceFile(disk: Disk, path: string, bytes: Uint8Array): Promise<void> {
  const aside = asidePath(path)
  await disk.remove(aside)
  const file = await disk.openAppend(aside)
  try {
    await writeAll(file, bytes)
    await file.sync()
  } finally {
    await file.close()
  }
  await disk.rename(aside, path)
  await disk.syncDir(dirname(path))
}
