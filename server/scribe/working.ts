// The working side of a room: the board as it will be once the next flush has returned. It is a
// value. A turn makes a new one or throws, so that nothing is ever half applied, and after a failed
// flush it is simply let go. Nobody but the scribe sees it.

import { assert } from '../../shared/base/control.ts'
import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Lane } from '../lanes/lanes.ts'
import type { Brain, Entry } from './ports.ts'

/** A record to be written, and the private texts it is the first to name. */
export type Draft = { readonly entry: Entry; readonly names: readonly PrivateRef[] }

export type Working = {
  readonly board: Board
  readonly version: number
  /** The time of the last record; no later one stands before it. */
  readonly lastAtMs: InstantMs
  readonly drafts: readonly Draft[]
  /** The lanes that changed since the last flush. */
  readonly lanes: ReadonlyMap<string, Lane>
}

/** What is known to be on disk, and all that screens, snapshots and hashes may see. */
export type Durable = Pick<Working, 'board' | 'version' | 'lastAtMs'>

export const workingFrom = (durable: Durable): Working => ({
  ...durable,
  drafts: [],
  lanes: new Map(),
})

/** The sender of a record that no person and no device is behind. */
export const byNobody = { by: null, device: null } as const

type RecordParts = {
  readonly atMs: InstantMs
  readonly epoch: number
  readonly cause: Entry['cause']
  readonly by: PersonId | null
  readonly device: string | null
  readonly events: readonly RoomEvent[]
  readonly names?: readonly PrivateRef[]
}

/**
 * One more record. Its events are first read as a later start will read them from disk: what could
 * not be opened again must not be written. Throws when they cannot, or when `evolve` does.
 */
export function withRecord(brain: Brain, working: Working, parts: RecordParts): Working {
  assert(parts.atMs >= working.lastAtMs, 'a record would lie before the one it follows')
  const { names = [], ...rest } = parts
  const events = brain.readEvents(parts.events)
  const entry: Entry = { version: working.version + 1, ...rest, events }
  return {
    ...working,
    board: events.reduce((board, event) => brain.evolve(board, event), working.board),
    version: entry.version,
    lastAtMs: entry.atMs,
    drafts: [...working.drafts, { entry, names }],
  }
}

/** More than a room has claims, doubts and days: beyond it a time rule repeats itself for ever. */
const timeRecordsMax = 1_000

/** Applies every time rule due at `nowMs`, earliest first, a record each, until none is left. */
export function withTime(
  brain: Brain,
  before: Working,
  turn: { readonly nowMs: InstantMs; readonly epoch: number },
): Working {
  let working = before
  for (let records = 0; records < timeRecordsMax; records += 1) {
    const events = brain.decideTime(working.board, turn.nowMs)
    if (events.length === 0) return working
    const { nowMs: atMs, epoch } = turn
    const cause = { type: 'clock' } as const
    working = withRecord(brain, working, { atMs, epoch, cause, ...byNobody, events })
  }
  throw new Error(`the time rules left something due ${timeRecordsMax} times running`)
}
