// Making a room: in a folder aside, furnished whole, and then moved to its place by one rename, so that
// a start that dies half-way leaves no room that looks finished. Its first person is the permit holder,
// put there by the server because nobody is there yet who could add anyone.

import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { PersonId } from '../../shared/base/values.ts'
import { type Role, type SignOff, signOffs } from '../../shared/board/constants.ts'
import type { ClockSource } from '../clock/roomClock.ts'
import type { Disk } from '../disk/disk.ts'
import { createRoom, type RoomPlace } from '../room/openRoom.ts'
import type { Room } from '../room/room.ts'
import { seasonAt } from './roomsFolder.ts'

/** What every room of this process stands on, whichever room it is. */
export type Ground = Pick<RoomPlace, 'clockSource' | 'timers' | 'chance' | 'log'> & {
  readonly disk: Disk
  readonly roomsDir: string
}

export type FirstPerson = {
  readonly name: string
  readonly role: Role
  readonly signOffs: readonly SignOff[]
}

export type RoomWish = {
  readonly room: string
  readonly title: string
  readonly zone: string
  readonly opensMinute: number
  readonly closesMinute: number
  readonly first: FirstPerson
}

/** The first person of every room. */
export const firstPersonId = 'p1' as PersonId

/** Someone who may do everything, until they have added others; the name is theirs to be told apart by. */
export const permitHolder: FirstPerson = { name: 'Permit holder', role: 'permitHolder', signOffs }

const asideName = '.new'

/** `furnish` fills the room before anybody sees it; its clock is the one of `ground`. */
export async function foundRoom(
  ground: Ground,
  wish: RoomWish,
  furnish: (room: Room) => Promise<void>,
): Promise<void> {
  const { disk, roomsDir, clockSource, timers, chance, log } = ground
  const { room: id, first, title, zone, opensMinute, closesMinute } = wish
  const aside = join(roomsDir, asideName)
  await rm(aside, { recursive: true, force: true })
  const season = seasonAt(clockSource.wallMs(), zone)
  const place = { disk, dir: join(aside, season), room: id, speed: 1 }
  const room = await createRoom(
    { ...place, clockSource, timers, chance, log },
    { season, title, zone, opensMinute, closesMinute },
  )
  try {
    await addFirst(room, first)
    await furnish(room)
  } finally {
    await room.close()
  }
  await disk.rename(aside, join(roomsDir, id))
  await disk.syncDir(roomsDir)
}

async function addFirst(room: Room, { name, role, signOffs: offs }: FirstPerson): Promise<void> {
  const outcome = await room.record(({ keep }) => [
    {
      ...{ type: 'PersonAdded', v: 1, person: firstPersonId, role, signOffs: [...offs] },
      name: keep({ name }),
    },
  ])
  if (outcome.status === 'failed')
    throw new Error(`the first person was not added: ${outcome.code}`)
}

/** A clock that stands where it is put, for a past that is written down now. */
export function steppedClock(startMs: number): { source: ClockSource; goTo(atMs: number): void } {
  let nowMs = startMs
  return {
    source: { wallMs: () => nowMs, monotonicMs: () => nowMs },
    goTo: (atMs) => {
      nowMs = atMs
    },
  }
}
