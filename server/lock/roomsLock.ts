// One server per rooms folder: two writers would break every journal in it. The lock is a socket in
// the folder, because the machine closes a socket with its process: unlike a file with a number in
// it, it can always be told alive from left over, since somebody answers or nobody does.
//
//   bind .lock ── taken ──▶ ask it ── answers ──▶ refused, with the process it names
//        ▲                     └─ nobody ──▶ bind .lock-old, ask .lock again, remove it, free .lock-old
//        └───────────────────────────────────────────────┘
//
// Whoever removes a leftover holds the second socket meanwhile, so that nobody removes the fresh lock
// of a quicker one. Two servers could get in only where one died while it did just that, and three
// more started on what it left within the same moment.

import { createHash } from 'node:crypto'
import { realpath, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { StartFailure } from '../config/startFailure.ts'
import { askHolder, freeSocket, holdSocket } from './lockSocket.ts'

/** Another server works on the folder; the message says so to a person. */
export class RoomsInUse extends StartFailure {
  constructor(roomsDir: string, holder: string) {
    super(`The rooms folder ${roomsDir} is in use by another Broodboard (process ${holder}).`)
    this.name = 'RoomsInUse'
  }
}

export interface RoomsLock {
  readonly path: string
  release(): Promise<void>
}

/** A leftover can come between only while several servers start at once; more rounds are no accident. */
const roundsMax = 20

/** The folder must stand. Throws `RoomsInUse`, or what the machine says where it cannot be written. */
export async function takeRoomsLock(roomsDir: string): Promise<RoomsLock> {
  const path = await lockPath(roomsDir)
  for (let round = 0; round < roundsMax; round += 1) {
    const socket = await holdSocket(path)
    if (socket !== null) return { path, release: () => freeSocket(socket) }
    const holder = await askHolder(path)
    if (holder.type === 'held') throw new RoomsInUse(roomsDir, holder.process)
    if (holder.type === 'leftOver') await clearLeftover(path)
  }
  throw new RoomsInUse(roomsDir, 'unknown')
}

const clearing = '-old'

/** Linux takes 107 bytes for the path of a socket, macOS 103, as far as we remember. */
const pathMaxBytes = 103 - clearing.length

/** In the folder itself; or, where that makes too long a path, under a name made of the folder's. */
export async function lockPath(roomsDir: string): Promise<string> {
  const folder = await realpath(roomsDir)
  const inside = join(folder, '.lock')
  if (Buffer.byteLength(inside) <= pathMaxBytes) return inside
  const name = createHash('sha256').update(folder).digest('hex').slice(0, 16)
  return join(tmpdir(), `broodboard-${name}.lock`)
}

async function clearLeftover(path: string): Promise<void> {
  const guardPath = `${path}${clearing}`
  const guard = await holdSocket(guardPath)
  if (guard === null) {
    // Somebody else is at it, or died at it.
    await removeLeftover(guardPath)
    return
  }
  try {
    await removeLeftover(path)
  } finally {
    await freeSocket(guard)
  }
}

/** Never what is absent: by the time of removing, it may be somebody's. */
async function removeLeftover(path: string): Promise<void> {
  const holder = await askHolder(path)
  if (holder.type === 'leftOver') await rm(path, { force: true })
}
