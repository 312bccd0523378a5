// What every rule page returns, and the few questions they all ask of a board.

import { no, ok, type Result } from '../base/control.ts'
import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import type { Command } from '../board/commands.ts'
import type { RoomEvent } from '../board/events.ts'
import type { Board, Doubt, Held, Nest } from '../board/state.ts'
import type { Context } from './context.ts'
import type { Rejection } from './rejection.ts'

export type Decision = Result<readonly RoomEvent[], Rejection>
export type Events = readonly RoomEvent[]
/** What the passing of time brings, and from which instant it holds. */
export type Due = { readonly atMs: InstantMs; readonly events: (nowMs: InstantMs) => Events }

export const happened = (...events: RoomEvent[]): Decision => ok(events)
export const nothingNew: Decision = ok([])
export const refuse = (why: Rejection): Decision => no(why)

export const heldBy = (nest: Nest): Held | null => (nest.hands.type === 'held' ? nest.hands : null)

/** The nest this person has in hand, and the claim; null when they have none. */
export function claimOf(board: Board, person: PersonId): { nest: Nest; held: Held } | null {
  for (const nest of Object.values(board.nests)) {
    if (nest.hands.type === 'held' && nest.hands.person === person)
      return { nest, held: nest.hands }
  }
  return null
}

/** The doubt of the visit with this number. One about two records has a number of its own, and no visit. */
export const doubtOf = (nest: Nest, no: number): Doubt | null =>
  nest.doubts.find((doubt) => doubt.no === no && doubt.kind !== 'twice') ?? null

/** The number the next claim, or round without a claim, will have. */
export const nextVisit = (board: Board): number => board.counters.visit + 1

/** Keeps a report that could not be applied, whole, for somebody to read. */
export function setAside(
  command: Command,
  context: Context,
  why: Extract<RoomEvent, { type: 'ReportSetAside' }>['why'],
  nest?: NestId,
): RoomEvent {
  return {
    type: 'ReportSetAside',
    v: 1,
    by: context.by,
    atMs: context.nowMs,
    why,
    ...(nest ? { nest } : {}),
    // A copy without undefined fields: what is kept must read back as it was written. A name or note
    // stays findable by where it stands in the private file.
    body: JSON.parse(
      JSON.stringify(context.private ? { ...command, private: context.private } : command),
    ),
  }
}
