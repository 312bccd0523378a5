// The room's past as the world outside saw it become durable, folded once by the rules from the very
// first record. Whatever a screen, a snapshot or a restarted server shows at a version is held against
// this; nothing the server keeps is used to make it.

import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { printOf } from './boardPrint.ts'

/** One record and the board on either side of it. */
export type Happened = {
  readonly record: RecordFrame
  readonly before: Board
  readonly after: Board
}

export class Reference {
  #board: Board = emptyBoard
  readonly #records: RecordFrame[] = []
  readonly #prints: number[] = [printOf(emptyBoard)]

  get board(): Board {
    return this.#board
  }

  get version(): number {
    return this.#records.length
  }

  /** Null where the record does not follow from the last one. */
  take(record: RecordFrame): Happened | null {
    if (record.version !== this.version + 1) return null
    const before = this.#board
    this.#board = foldEvents(before, record.events)
    this.#records.push(record)
    this.#prints.push(printOf(this.#board))
    return { record, before, after: this.#board }
  }

  recordAt(version: number): RecordFrame | undefined {
    return this.#records[version - 1]
  }

  /** The board's print at that version; undefined where no such version became durable. */
  printAt(version: number): number | undefined {
    return this.#prints[version]
  }
}
