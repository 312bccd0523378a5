// Opening a room that stands on disk, and founding a new one. Both end with a room that is served:
// its start is on record and its clock runs. Throws `RoomRefused`, and `DamagedFile` as the journal
// names it; `main.ts` says either in a sentence.

import type { Founding } from '../../shared/rules/founding.ts'
import type { ServerTurn } from '../scribe/waiting.ts'
import { nothingKnown } from './folding.ts'
import { lastFrames, type ReadRoom, type RoomParts, readRoom } from './readRoom.ts'
import { realBrain } from './realBrain.ts'
import { openingTurn, Room } from './room.ts'
import { RoomRefused } from './roomRefused.ts'
import { knownBySnapshot } from './snapshotting.ts'

/** Where a room is and what it lives on; the rules are the real ones unless a test brings its own. */
export type RoomPlace = Omit<RoomParts, 'brain' | 'bugs'> &
  Partial<Pick<RoomParts, 'brain' | 'bugs'>>

const withRules = (place: RoomPlace): RoomParts => ({ brain: realBrain, bugs: {}, ...place })

export async function openRoom(place: RoomPlace): Promise<Room> {
  const parts = withRules(place)
  const known = await knownBySnapshot({ ...parts, hashBoard: parts.brain.hashBoard })
  return served(parts, await readRoom(parts, known, 'aRoom'), [])
}

/** What is asked about a new room; its name, season and times come from where and when it is founded. */
export type FoundingWishes = Omit<Founding, 'room' | 'nowMs' | 'civilOffsetMs'>

export async function createRoom(place: RoomPlace, wishes: FoundingWishes): Promise<Room> {
  const parts = withRules(place)
  const read = await readRoom(parts, nothingKnown(), 'nothing')
  const { foundingEvents } = parts.brain
  const founding: ServerTurn = ({ nowMs, civilOffsetMs }) =>
    foundingEvents({ ...wishes, room: parts.room, nowMs, civilOffsetMs })
  return served(parts, read, [founding])
}

async function served(
  parts: RoomParts,
  read: ReadRoom,
  first: readonly ServerTurn[],
): Promise<Room> {
  const room = new Room(parts, read, await lastFrames(parts, read))
  for (const turn of [...first, openingTurn(parts)]) {
    const outcome = await room.record(turn)
    if (outcome.status === 'recorded') continue
    await room.close()
    throw new RoomRefused(outcome.code === 'internal' ? 'rulesFailed' : 'notWritable', parts.dir)
  }
  return room
}
