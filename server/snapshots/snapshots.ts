// Snapshots of a room: boards as they were at some version, so that a start need not read the whole
// journal. A cache and nothing more: a damaged one is passed over for the one before it, and with none
// at all the journal tells everything. Written by the scribe from the durable board only.
//
//   snapshot-000000004096.json   snapshot-000000008192.json      the newest two are kept

import { join } from 'node:path'
import { Low } from 'lowdb'
import { z } from 'zod'
import { DamagedFile } from '../disk/damage.ts'
import type { Disk } from '../disk/disk.ts'
import { sealedAdapter } from '../disk/durableLow.ts'
import { errorCode } from '../disk/realDisk.ts'

const whole = z.int().min(0)

const snapshotSchema = z.strictObject({
  format: z.literal(2),
  room: z.string(),
  epoch: whole,
  version: whole,
  /** The hash of the record at `version`: where the journal goes on. */
  hash: z.string().regex(/^[0-9a-f]{64}$/),
  /** `hashBoard` of the board, for `check` to hold the board against. */
  boardHash: whole,
  board: z.unknown(),
  /** Last answers by lane, so that a repeat after a restart gets its first answer. */
  lanes: z.unknown(),
})
export type Snapshot = z.infer<typeof snapshotSchema>

export interface SnapshotsPlace {
  readonly disk: Disk
  /** The folder of one season of one room. */
  readonly dir: string
  readonly room: string
}

export interface FoundSnapshot {
  readonly snapshot: Snapshot | null
  /** Newer ones that were passed over, each with the reason in words. */
  readonly bad: readonly { readonly file: string; readonly why: string }[]
}

const naming = /^snapshot-\d{12}\.json$/
const nameOf = (version: number) => `snapshot-${String(version).padStart(12, '0')}.json`

/** Durable once it returns; of those before it only the newest is kept. One at a time. */
export async function saveSnapshot(place: SnapshotsPlace, snapshot: Snapshot): Promise<void> {
  const name = nameOf(snapshot.version)
  await new Low(adapterOf(place, name), snapshot).write()
  const older = (await listSnapshots(place)).filter((other) => other < name)
  // One that comes back after a crash does no harm, so the folder need not be synced again.
  for (const old of older.slice(0, -1)) await place.disk.remove(join(place.dir, old))
}

/** The newest snapshot of this room that is whole, known and passes `check`. */
export async function newestGoodSnapshot(
  place: SnapshotsPlace,
  check: (snapshot: Snapshot) => boolean,
): Promise<FoundSnapshot> {
  const bad: { file: string; why: string }[] = []
  for (const name of [...(await listSnapshots(place))].reverse()) {
    const file = join(place.dir, name)
    const found = await readSnapshot(place, name)
    if (found instanceof Error) bad.push({ file, why: found.message })
    else if (found === null) continue
    else if (found.room !== place.room) bad.push({ file, why: 'it is of another room' })
    else if (!check(found)) bad.push({ file, why: 'the board in it is not the one it names' })
    else return { snapshot: found, bad }
  }
  return { snapshot: null, bad }
}

async function listSnapshots({ disk, dir }: SnapshotsPlace): Promise<readonly string[]> {
  return (await disk.list(dir)).filter((name) => naming.test(name))
}

/** What cannot be read at all is passed over like what is damaged: the journal has it too. */
async function readSnapshot(place: SnapshotsPlace, name: string): Promise<Snapshot | Error | null> {
  try {
    return await adapterOf(place, name).read()
  } catch (error) {
    if (error instanceof DamagedFile) return error
    if (error instanceof Error && errorCode(error) !== null) return error
    throw error
  }
}

function adapterOf({ disk, dir }: SnapshotsPlace, name: string) {
  const parse = (raw: unknown) => snapshotSchema.parse(raw)
  return sealedAdapter({ disk, path: join(dir, name), parse })
}
