// Opening the rooms of a folder, each for itself: one that is damaged or cannot be read takes none of
// the others down, and is named with its reason wherever it would be looked for. Where not even one
// opens, the start has failed, with the first reason.

import type { Log } from '../log/log.ts'
import { startFailureOf } from './failureSentence.ts'
import type { RoomPlace } from './roomsFolder.ts'

export type Refused = { readonly id: string; readonly why: string }

export type Opened<Room> = { readonly rooms: readonly Room[]; readonly refused: readonly Refused[] }

export async function openEach<Room>(
  places: readonly RoomPlace[],
  open: (place: RoomPlace) => Promise<Room>,
  log: Log,
): Promise<Opened<Room>> {
  const rooms: Room[] = []
  const failed: { readonly place: RoomPlace; readonly error: unknown }[] = []
  for (const place of places) {
    try {
      rooms.push(await open(place))
    } catch (error) {
      failed.push({ place, error })
    }
  }
  const [first] = failed
  if (rooms.length === 0 && first !== undefined) throw first.error
  for (const { place, error } of failed) {
    log.error({ room: place.room, err: error }, 'a room could not be opened')
  }
  const refused = failed.map(({ place, error }) => {
    return { id: place.room, why: whyRefused(error, place) }
  })
  return { rooms, refused }
}

/** What the world brings has a sentence of its own; for a mistake of ours the log has the rest. */
const whyRefused = (error: unknown, { dir }: RoomPlace): string =>
  startFailureOf(error, { roomsDir: dir, port: 0 })?.message ??
  'It could not be opened; the log says why.'
