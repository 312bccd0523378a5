// The two disks every storage test runs on: the one in memory and the machine's, in a folder of its
// own that is gone afterwards. One contract, both of them.

import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Disk } from '../../server/disk/disk.ts'
import { realDisk } from '../../server/disk/realDisk.ts'
import { FakeDisk } from './fakeDisk.ts'
import { seededChoose } from './seededChoose.ts'

export interface DiskPlace {
  readonly disk: Disk
  /** A folder that stands and is empty. */
  readonly root: string
  readonly done: () => Promise<void>
}

export const disks: readonly (readonly [name: string, place: () => Promise<DiskPlace>])[] = [
  ['the disk in memory', inMemory],
  ['the real disk', onTheMachine],
]

async function inMemory(): Promise<DiskPlace> {
  const disk = new FakeDisk({ choose: seededChoose(1) })
  await disk.makeDir('/rooms')
  return { disk, root: '/rooms', done: async () => undefined }
}

async function onTheMachine(): Promise<DiskPlace> {
  const root = await mkdtemp(join(tmpdir(), 'broodboard-disk-'))
  return { disk: realDisk, root, done: () => rm(root, { recursive: true }) }
}
