// What opening a journal mends, once all of it was read and found in order: a torn end is kept beside
// and cut off, a file only just begun is removed, and the newest records are written anew. A crash in
// between leaves the same to be done at the next opening.

import { join } from 'node:path'
import { replaceFile } from '../disk/durable.ts'
import type { ChainPlace } from './dayFiles.ts'
import type { ReadDayFile } from './readDayFile.ts'
import type { ChainHead } from './record.ts'

/** A torn end that was cut off: where it is kept now, and how long it is. */
export interface Torn {
  readonly path: string
  readonly lengthBytes: number
}

export interface Repair {
  readonly keepBeside: readonly { readonly name: string; readonly bytes: Uint8Array }[]
  /** Written anew whole, so that all of it is known to be on the medium. */
  readonly rewrite: { readonly name: string; readonly bytes: Uint8Array } | null
  readonly remove: readonly string[]
}

export function planRepair(
  head: ChainHead,
  after: ChainHead,
  {
    last,
    residue,
  }: { readonly last: ReadDayFile | null; readonly residue: readonly ReadDayFile[] },
): Repair {
  const version = head.version + 1
  const torn = [last, ...residue].filter((read) => read?.lines.rest) as readonly ReadDayFile[]
  const isVouchedFor = head.version === after.version
  const mustRewrite = last !== null && (last.lines.rest !== null || !isVouchedFor)
  return {
    keepBeside: torn.map(({ file, bytes, lines }) => ({
      name: `${file.name}.torn-${version}`,
      bytes: bytes.subarray(lines.soundBytes),
    })),
    rewrite: mustRewrite
      ? { name: last.file.name, bytes: last.bytes.subarray(0, last.lines.soundBytes) }
      : null,
    remove: residue.map(({ file }) => file.name),
  }
}

/**
 * Does what was planned. The newest records are written anew because an earlier process may have read
 * them from the machine's cache after a sync that failed: the cache has them, the medium may not.
 */
export async function repair({ disk, dir }: ChainPlace, plan: Repair): Promise<readonly Torn[]> {
  for (const { name, bytes } of plan.keepBeside) await replaceFile(disk, join(dir, name), bytes)
  if (plan.rewrite !== null) {
    await replaceFile(disk, join(dir, plan.rewrite.name), plan.rewrite.bytes)
  }
  for (const name of plan.remove) await disk.remove(join(dir, name))
  if (plan.remove.length > 0) await disk.syncDir(dir)
  return plan.keepBeside.map(({ name, bytes }) => ({
    path: join(dir, name),
    lengthBytes: bytes.length,
  }))
}
