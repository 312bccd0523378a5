// Reading a room from its folder: what is known already (a snapshot, or the board from before a
// failure), then every record after it. Nothing is served yet. Damage is thrown on as the journal
// names it; a torn end was cut off by the journal and is told to the log here.

import type { InstantMs, LengthMs } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { tailMax } from '../../shared/wire/limits.ts'
import type { Chance } from '../clock/chance.ts'
import type { ClockSource } from '../clock/roomClock.ts'
import { DamagedFile } from '../disk/damage.ts'
import type { Disk } from '../disk/disk.ts'
import { type Journal, openJournal } from '../journal/journal.ts'
import type { Lanes } from '../lanes/lanes.ts'
import type { Log } from '../log/log.ts'
import { openPrivateFile, type PrivateFile } from '../privateFile/privateFile.ts'
import type { ScribeBugs } from '../scribe/plantedBugs.ts'
import type { TimersPort } from '../scribe/ports.ts'
import { Folding, type Known } from './folding.ts'
import type { RoomBrain } from './realBrain.ts'
import { frameOf } from './recent.ts'
import { RoomRefused } from './roomRefused.ts'

export type RoomParts = {
  readonly disk: Disk
  /** The folder of one season of one room. */
  readonly dir: string
  readonly room: string
  readonly brain: RoomBrain
  readonly clockSource: ClockSource
  readonly timers: TimersPort
  /** Salts of the private file. */
  readonly chance: Chance
  readonly log: Log
  /** How fast the room's clock runs against a real one. */
  readonly speed: number
  readonly bugs: ScribeBugs
  /** The files came out of a backup: screens must not take their newer past for this one. */
  readonly isRestored?: true
  readonly reopenEveryMs?: LengthMs
}

export type ReadRoom = {
  readonly journal: Journal<RoomEvent>
  readonly privateFile: PrivateFile
  readonly board: Board
  readonly lanes: Lanes
  /** Null where there is no record yet. */
  readonly lastAtMs: InstantMs | null
  /** Records beyond what was known. */
  readonly newFrames: readonly RecordFrame[]
}

/** Throws `RoomRefused` where there is no room and one was expected, or the other way round. */
export async function readRoom(
  parts: RoomParts,
  known: Known,
  expected: 'aRoom' | 'nothing',
): Promise<ReadRoom> {
  const { disk, dir, room, brain, log, chance } = parts
  const folding = new Folding(brain, known)
  const { journal, torn } = await openJournal<RoomEvent>({
    ...{ disk, dir, room, after: known.head, parseEvents: brain.readEvents },
    onRecord: (record) => folding.take(record),
  })
  const isThere = journal.head.version > 0
  if (isThere !== (expected === 'aRoom')) {
    throw new RoomRefused(isThere ? 'alreadyFounded' : 'notFounded', dir)
  }
  const { file: privateFile, torn: tornPrivate } = await openPrivateFile({ disk, dir, chance })
  for (const { path, lengthBytes: count } of [...torn, ...(tornPrivate ? [tornPrivate] : [])]) {
    log.warn({ room, count, err: path }, 'an end torn by a crash was cut off and kept beside')
  }
  const { board, lanes, frames: newFrames } = folding
  const lastAtMs = await timeOfHead(journal)
  return { journal, privateFile, board, lanes, newFrames, lastAtMs }
}

async function timeOfHead(journal: Journal<RoomEvent>): Promise<InstantMs | null> {
  const { version } = journal.head
  const [last] = await journal.readRecords({ from: version, to: version, limit: 1 })
  return last?.atMs ?? null
}

/**
 * The last records of the journal for screens that come back: as many as can be read. A damaged old
 * day is no reason not to serve today, and is found and named by the scrub.
 */
export async function lastFrames(
  parts: RoomParts,
  read: ReadRoom,
): Promise<readonly RecordFrame[]> {
  if (read.newFrames.length >= tailMax) return read.newFrames
  const { version } = read.journal.head
  const from = Math.max(1, version - tailMax + 1)
  try {
    const records = await read.journal.readRecords({ from, to: version, limit: tailMax })
    return records.map(frameOf)
  } catch (err) {
    if (!(err instanceof DamagedFile)) throw err
    parts.log.warn({ room: parts.room, err }, 'the last records could not all be read')
    return read.newFrames
  }
}
