// What stands in the rooms folder: `<rooms>/<room>/<season>/`. A name that is no room's is left alone,
// so that a stray file or a lock does no harm. Nothing is opened here.

import { join } from 'node:path'
import { roomId } from '../../shared/board/parts.ts'
import type { Disk } from '../disk/disk.ts'
import { errorCode } from '../disk/realDisk.ts'

export type RoomPlace = {
  readonly room: string
  readonly season: string
  /** The folder of this season. */
  readonly dir: string
}

export const placeOf = (roomsDir: string, room: string, season: string): RoomPlace => ({
  room,
  season,
  dir: join(roomsDir, room, season),
})

/** Rooms one process serves: their full screens still have a place among the port's connections. */
export const roomsMax = 6

/** Every room of the folder in its newest season, by name. */
export async function listRooms(disk: Disk, roomsDir: string): Promise<readonly RoomPlace[]> {
  const places: RoomPlace[] = []
  for (const room of await disk.list(roomsDir)) {
    if (!roomId.safeParse(room).success) continue
    const seasons = (await listFolder(disk, join(roomsDir, room))).filter(isSeason)
    const season = seasons.at(-1)
    if (season !== undefined) places.push(placeOf(roomsDir, room, season))
  }
  return places
}

const isSeason = (name: string): boolean => /^\d{4}$/.test(name)

/** Empty for what is no folder. */
async function listFolder(disk: Disk, path: string): Promise<readonly string[]> {
  try {
    return await disk.list(path)
  } catch (error) {
    if (errorCode(error) === 'ENOTDIR') return []
    throw error
  }
}

/** A season is the civil year of its place. */
export const seasonAt = (nowMs: number, zone: string): string =>
  new Intl.DateTimeFormat('en', { timeZone: zone, year: 'numeric' }).format(nowMs)
