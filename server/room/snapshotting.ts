// When a room is photographed: every so many records, and when it closes. A snapshot is a cache: one
// that cannot be written is logged and stops nothing, since the journal tells everything anyway.

import type { Board } from '../../shared/board/state.ts'
import { Lanes, type SavedLanes } from '../lanes/lanes.ts'
import type { Log } from '../log/log.ts'
import type { ScribeBugs } from '../scribe/plantedBugs.ts'
import {
  newestGoodSnapshot,
  type Snapshot,
  type SnapshotsPlace,
  saveSnapshot,
} from '../snapshots/snapshots.ts'
import { type Known, nothingKnown } from './folding.ts'

/** A start folds at most about so many records beyond its snapshot, well under a second's work. */
export const recordsPerSnapshot = 500

export type SnapshotParts = SnapshotsPlace & {
  readonly hashBoard: (board: Board) => number
  readonly log: Log
  readonly bugs: ScribeBugs
}

/** Where the newest good snapshot says the room stood; nowhere, when there is none. */
export async function knownBySnapshot(parts: SnapshotParts): Promise<Known> {
  const isWhole = (one: Snapshot) => parts.hashBoard(boardIn(one)) === one.boardHash
  const { snapshot, bad } = await newestGoodSnapshot(parts, isWhole)
  for (const { file, why } of bad) {
    parts.log.warn({ room: parts.room, err: `${file}: ${why}` }, 'a snapshot was passed over')
  }
  if (snapshot === null) return nothingKnown()
  const { version, epoch, hash } = snapshot
  const lanes = new Lanes(snapshot.lanes as unknown as SavedLanes)
  return { head: { version, epoch, hash }, board: boardIn(snapshot), lanes }
}

// A snapshot of another format is passed over when it is read, so this is a board of today's shape:
// whoever changes that shape raises the format, and the next start reads the journal instead.
const boardIn = (snapshot: Snapshot): Board => snapshot.board as unknown as Board

function snapshotOf(parts: SnapshotParts, known: Known): Snapshot {
  const lanes = parts.bugs.leavesLanesOutOfSnapshot ? [] : known.lanes.save()
  return {
    ...{ format: 2, room: parts.room, ...known.head },
    boardHash: parts.hashBoard(known.board),
    board: known.board as unknown as Snapshot['board'],
    lanes: lanes as unknown as Snapshot['lanes'],
  }
}

export class Snapshotting {
  readonly #parts: SnapshotParts
  /** How the room stands on disk; null in the moment between a flush and its publishing. */
  readonly #known: () => Known | null
  #savedVersion: number
  #saving: Promise<void> = Promise.resolve()
  #isSaving = false

  constructor(parts: SnapshotParts, savedVersion: number, known: () => Known | null) {
    this.#parts = parts
    this.#savedVersion = savedVersion
    this.#known = known
  }

  /** Told of each record; saves now and then, beside the room's work and one at a time. */
  recordWritten(version: number): void {
    if (this.#isSaving || version - this.#savedVersion < recordsPerSnapshot) return
    this.#saving = this.#save()
  }

  /** One last picture, after whatever is being saved. */
  async saveLast(): Promise<void> {
    await this.#saving
    await this.#save()
  }

  async #save(): Promise<void> {
    const known = this.#known()
    if (known === null || known.head.version === this.#savedVersion) return
    this.#isSaving = true
    try {
      await saveSnapshot(this.#parts, snapshotOf(this.#parts, known))
      this.#savedVersion = known.head.version
    } catch (err) {
      const { room, log } = this.#parts
      log.warn({ room, version: known.head.version, err }, 'a snapshot could not be saved')
    } finally {
      this.#isSaving = false
    }
  }
}
