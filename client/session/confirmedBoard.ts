// The board as the server has confirmed it: folded from records in their order, none left out, none
// taken twice. It never goes back within an epoch. What does not fit is named, and the caller asks
// for the whole board anew; nothing is guessed here and nothing drawn that the server has not said.

import { type Board, emptyBoard } from '../../shared/board/state.ts'
import type { Beat, Names, RecordFrame, Welcome } from '../../shared/wire/frames.ts'
import type { Brain, Complain, Told } from './ports.ts'
import { later } from './told.ts'

/**
 * `gap`: a record is missing. `unknownEvent`: one could not be folded. `otherBoard`: ours differs from
 * the server's at the same version. `behind`: the server knows less than it has already told us.
 */
export type Misfit = 'gap' | 'unknownEvent' | 'otherBoard' | 'behind'

/** One step of the board, for tests that want to see every version pass. */
export type VersionSeen = Told & { readonly by: 'board' | 'record' }

export class ConfirmedBoard {
  readonly #brain: Brain
  readonly #complain: Complain
  readonly #seen: (seen: VersionSeen) => void
  #epoch = 0
  #version = 0
  #board: Board | null = null
  #names: Names = {}
  #told: Told = { epoch: 0, version: 0 }

  constructor(brain: Brain, complain: Complain, seen: (seen: VersionSeen) => void) {
    this.#brain = brain
    this.#complain = complain
    this.#seen = seen
  }

  get epoch(): number {
    return this.#epoch
  }
  get version(): number {
    return this.#version
  }
  get board(): Board | null {
    return this.#board
  }
  get names(): Names {
    return this.#names
  }
  get told(): Told {
    return this.#told
  }

  /** An answer, or an earlier life of this page, spoke of this version: nothing older is right any more. */
  tell(told: Told): void {
    this.#told = later(this.#told, told)
  }

  /** `asked` is what the hello said we had; a tail goes on from exactly there. */
  welcome(welcome: Welcome, asked: Told): Misfit | null {
    const { state, epoch } = welcome
    if (state.type === 'board') {
      if (epoch === this.#told.epoch && state.version < this.#told.version) return 'behind'
      this.#stand({ epoch, version: state.version }, state.board, 'board')
      this.#names = welcome.names
      return null
    }
    if (asked.version === 0) this.#begin(epoch)
    else if (epoch !== this.#epoch) return 'gap'
    this.#names = { ...this.#names, ...welcome.names }
    for (const record of state.records) {
      const misfit = this.record(record)
      if (misfit !== null) return misfit
    }
    return epoch === this.#told.epoch && this.#version < this.#told.version ? 'behind' : null
  }

  record({ version, events, names }: RecordFrame): Misfit | null {
    if (version <= this.#version) return null
    if (version !== this.#version + 1 || this.#board === null) return 'gap'
    const folded = this.#fold(this.#board, events)
    if (folded === null) return 'unknownEvent'
    if (names !== undefined) this.#names = { ...this.#names, ...names }
    this.#stand({ epoch: this.#epoch, version }, folded, 'record')
    return null
  }

  beat({ version, hash }: Beat): Misfit | null {
    if (this.#board === null || version > this.#version) return 'gap'
    if (hash === undefined || version < this.#version) return null
    return this.#brain.hashBoard(this.#board) === hash ? null : 'otherBoard'
  }

  #begin(epoch: number): void {
    this.#epoch = epoch
    this.#version = 0
    this.#board = emptyBoard
    this.#names = {}
  }

  #stand(now: Told, board: Board, by: VersionSeen['by']): void {
    this.#epoch = now.epoch
    this.#version = now.version
    this.#board = board
    this.tell(now)
    this.#seen({ ...now, by })
  }

  /** Null when an event is of a kind this program does not know; the board is then left as it was. */
  #fold(board: Board, events: RecordFrame['events']): Board | null {
    try {
      return events.reduce((sofar, event) => this.#brain.evolve(sofar, event), board)
    } catch (error) {
      this.#complain('a record could not be folded', error)
      return null
    }
  }
}
