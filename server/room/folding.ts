// From where a room was known to stand, record by record, to where its journal ends: the board, what
// each lane has settled, and the latest records for screens that come back. Used at every opening.

import type { RoomEvent } from '../../shared/board/events.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { tailMax } from '../../shared/wire/limits.ts'
import { type ChainHead, emptyHead, type JournalEntry } from '../journal/record.ts'
import { learnLanes } from '../lanes/fromRecords.ts'
import { Lanes } from '../lanes/lanes.ts'
import type { RoomBrain } from './realBrain.ts'
import { frameOf } from './recent.ts'

/** Where a room is known to stand: nowhere yet, at a snapshot, or where it failed. */
export type Known = {
  readonly head: ChainHead
  readonly board: Board
  readonly lanes: Lanes
}

export const nothingKnown = (): Known => ({
  head: emptyHead,
  board: emptyBoard,
  lanes: new Lanes(),
})

export class Folding {
  readonly #brain: Pick<RoomBrain, 'evolve'>
  readonly lanes: Lanes
  #board: Board
  #frames: RecordFrame[] = []

  constructor(brain: Pick<RoomBrain, 'evolve'>, known: Known) {
    this.#brain = brain
    this.#board = known.board
    this.lanes = known.lanes
  }

  take(record: JournalEntry<RoomEvent>): void {
    this.#board = record.events.reduce(
      (board, event) => this.#brain.evolve(board, event),
      this.#board,
    )
    learnLanes(this.lanes, [record])
    this.#frames.push(frameOf(record))
    // Cut only now and then: a long journal would otherwise move its last records at every step.
    if (this.#frames.length > 2 * tailMax) this.#frames = this.#frames.slice(-tailMax)
  }

  get board(): Board {
    return this.#board
  }

  /** The last of the records that were folded. */
  get frames(): readonly RecordFrame[] {
    return this.#frames
  }
}
