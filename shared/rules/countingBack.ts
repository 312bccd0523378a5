// The count after a feed. Fewer birds back in the nest than live in it means one is somewhere in the
// room: everybody is told at once to watch the doors, until it is found.

import type { InstantMs } from '../base/values.ts'
import { birdsOf, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Nest } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, type Events, happened, nothingNew, setAside } from './decision.ts'

export type Count = { readonly no: number; readonly back: number; readonly startedAtMs: InstantMs }

/** What a count says of the nest; an older visit's count says nothing against a later one. */
export function counted(board: Board, nest: Nest, count: Count, context: Context): Events {
  const isOld = nest.rounds.some(
    (round) =>
      round.back !== null && round.no !== count.no && round.startedAtMs > count.startedAtMs,
  )
  const missing = birdsOf(board, nest.id).length - count.back
  const at = { nest: nest.id, by: context.by, atMs: context.nowMs }
  if (isOld) return []
  if (missing > 0) return [{ type: 'BirdsShort', v: 1, no: count.no, missing, ...at }]
  return nest.short ? [{ type: 'BirdsFound', v: 1, ...at }] : []
}

export function decideBirdFound(
  board: Board,
  command: CommandOf<'BirdFound'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  if (!nest.short) return nothingNew
  const at = { nest: nest.id, by: context.by, atMs: context.nowMs }
  return happened({ type: 'BirdsFound', v: 1, ...at })
}

export const evolveShort = (board: Board, event: EventOf<'BirdsShort'>): Board =>
  withNest(board, event.nest, (nest) => ({
    ...nest,
    short: {
      ...{ missing: event.missing, no: event.no },
      sinceMs: nest.short?.sinceMs ?? event.atMs,
    },
  }))

export const evolveFound = (board: Board, event: EventOf<'BirdsFound'>): Board =>
  withNest(board, event.nest, (nest) => ({ ...nest, short: null }))
