// What the session needs of the world, each as narrow as can be: a link to the room, two clocks, chance
// and a store for the outbox. The tests have a fake of each; nothing in this folder reads a clock, a
// socket or a database but through these.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import type { Answer, FaultCode, FromScreen, FromServer } from '../../shared/wire/frames.ts'

export interface LinkHandlers {
  opened(): void
  frame(frame: FromServer): void
  /** The attempt failed or the link is gone. */
  closed(): void
}

export interface Link {
  /** Makes one attempt; whatever comes of it is told to these handlers. It never tries again by itself. */
  connect(handlers: LinkHandlers): void
  /** Dropped while not open: nothing is kept for later here. */
  send(frame: FromScreen): void
  /** Ends the attempt or the link; its handlers need not be called any more. */
  close(): void
}

export interface Timers {
  /** Real milliseconds of a clock nobody sets, counted from anywhere, new with every page life. */
  nowMs(): number
  /** The device's wall clock, right or wrong; used only for what must outlive a reload. */
  wallMs(): number
  /** Calls `run` once after so many real milliseconds, unless the function it returns is called. */
  after(delayMs: LengthMs, run: () => void): () => void
}

/** A number from 0 up to, not including, 1. */
export type Chance = () => number

/** The two functions that make a board and tell two apart; the program has one pair, in `realBrain`. */
export interface Brain {
  /** Throws on a kind of event this program does not know. */
  evolve(board: Board, event: RoomEvent): Board
  hashBoard(board: Board): number
}

/** Tells the house's own log what went wrong here and was caught. */
export type Complain = (what: string, error: unknown) => void

/** What a person noted, before it has a number. */
export type Noted = {
  readonly kind: 'ask' | 'report'
  readonly by: PersonId
  readonly body: Command
  readonly notedWallMs: number
  readonly startedWallMs: number | null
  /** The room's time this device had last heard before the visit began, or before the note. */
  readonly heardAtMs: InstantMs
}

export type OutboxEntry = Noted & {
  readonly n: number
  readonly standing:
    | { readonly type: 'waiting' }
    /** Kept for a while, so that a server restored from a backup can be given it again. */
    | { readonly type: 'answered'; readonly answer: Answer; readonly answeredWallMs: number }
}

export type StuckWhy =
  | { readonly type: 'fault'; readonly code: FaultCode }
  | { readonly type: 'rejected'; readonly why: Rejection }

/** A report the server would not take, kept whole until a person decides. */
export type StuckEntry = Noted & {
  /** `lane.n`, which is never anything else's. */
  readonly id: string
  readonly lane: string | null
  readonly n: number
  readonly why: StuckWhy
  /** `owed`: its old number is still to be sent as a withdrawal; until then it may yet have arrived. */
  readonly number: 'owed' | 'withdrawn'
}

/** The highest version this device was ever told of, and in which life of the journal. */
export type Told = { readonly epoch: number; readonly version: number }

export type OutboxAbout = {
  /** Null until the server has first said which lane is this device's. */
  readonly lane: string | null
  /** The last number given out; none is ever given twice in a lane. */
  readonly lastN: number
  readonly token: string | null
  readonly told: Told
}

export type OutboxContents = OutboxAbout & {
  /** In the order of their numbers. */
  readonly entries: readonly OutboxEntry[]
  readonly stuck: readonly StuckEntry[]
}

/** All of it happens, or none. */
export type OutboxChange = {
  readonly put?: readonly OutboxEntry[]
  readonly remove?: readonly number[]
  readonly putStuck?: readonly StuckEntry[]
  readonly removeStuck?: readonly string[]
  readonly numbering?: { readonly lane: string; readonly lastN: number }
  readonly token?: string
  readonly told?: Told
}

/**
 * Where the outbox survives a reload. Every call is one transaction; calls take effect in the order in
 * which they were made. All of them reject when the store fails, and then nothing has changed.
 */
export interface OutboxStore {
  load(): Promise<OutboxContents>
  /**
   * Gives the note the next number inside the transaction, so that two tabs never get the same one.
   * `insteadOf` is a stuck entry that the new one replaces. Resolves once it is on the medium.
   */
  add(noted: Noted, insteadOf?: string): Promise<OutboxEntry>
  write(change: OutboxChange): Promise<void>
  /** Takes on the lane the server named, by `adoption`; says what stands there afterwards. */
  adopt(lane: string, laneN: number): Promise<OutboxContents & { readonly isRenumbered: boolean }>
}
