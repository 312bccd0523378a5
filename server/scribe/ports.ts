// What the scribe needs of the world, and nothing more: each is handed in, each has a fake in the
// tests. No implementation lives here.

import type { Result } from '../../shared/base/control.ts'
import type { InstantMs, LengthMs } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Context } from '../../shared/rules/context.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import type { Names } from '../../shared/wire/frames.ts'
import type { JournalEntry } from '../journal/record.ts'

/** The rules, as the scribe uses them; `server/room/realBrain.ts` gives it the real ones. */
export interface Brain {
  decide(board: Board, command: Command, context: Context): Result<readonly RoomEvent[], Rejection>
  evolve(board: Board, event: RoomEvent): Board
  /** The events of the earliest time rule due at `nowMs`; none when nothing is due. */
  decideTime(board: Board, nowMs: InstantMs): readonly RoomEvent[]
  nextWakeAtMs(board: Board): InstantMs | null
  civilOffsetEvents(board: Board, offsetMs: LengthMs, nowMs: InstantMs): readonly RoomEvent[]
  /** Throws on an event that could not be read back from disk. */
  readEvents(raw: unknown): readonly RoomEvent[]
}

export type Entry = JournalEntry<RoomEvent>

export interface JournalPort {
  /** One write and one flush for all of them. Throws when they are not known to be durable. */
  append(entries: readonly Entry[], dayLabel: string): Promise<unknown>
  /** Records `from` to `to`, both included, earliest first, at most `limit` of them. */
  readRecords(range: { from: number; to: number; limit: number }): Promise<readonly Entry[]>
}

export type PrivateText = { readonly name?: string | undefined; readonly note?: string | undefined }

export interface PrivatePort {
  /** Gives the text its id and hash; in memory alone until the flush. */
  stage(text: PrivateText): PrivateRef
  /** Takes back what was staged and not flushed: no record will name it. */
  unstage(ref: PrivateRef): void
  /** Writes what is staged. Throws when it is not known to be durable. */
  flush(): Promise<unknown>
  /** What screens may show of these. */
  namesOf(refs: readonly Pick<PrivateRef, 'id'>[]): Names
}

export interface ClockPort {
  /** The room's clock; never back. */
  nowMs(): InstantMs
  /** Civil time, by the machine's wall clock, minus the room's clock. */
  civilOffsetMs(): LengthMs
}

export interface TimersPort {
  /** Calls `run` once after so many real milliseconds, unless the function it returns is called. */
  after(delayMs: LengthMs, run: () => void): () => void
}
