// The desk's table of nests: what every screen shows of a nest, and beside it what a lead compares
// across the room. Which nests stand under which filter is decided here, so that each stands under one.

import { unreachable } from '../base/control.ts'
import type { InstantMs, LengthMs } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Bird, Board, Nest, Request } from '../board/state.ts'
import { intervalMs, lastFedAtMs } from '../rules/due.ts'
import { openRequests } from '../rules/openRequests.ts'
import { nameOf, type PublicNames } from './names.ts'
import { inWaitingOrder } from './nestOrder.ts'
import { type NestState, type NestSummary, nestSummary } from './nestState.ts'

export const nestGroups = ['late', 'hands', 'coming', 'hold'] as const
export type NestGroup = (typeof nestGroups)[number]

/** Somebody is called to it, or a bird of it was not counted back. */
export type Trouble = Request['kind'] | 'short'

export type DeskNest = NestSummary & {
  readonly group: NestGroup
  readonly trouble: Trouble | null
  /** Species codes of its birds, each once. */
  readonly species: readonly string[]
  /** The shortest and the longest interval among its birds; null where none has a plan. */
  readonly every: { readonly loMs: LengthMs; readonly hiMs: LengthMs } | null
  readonly lastFedAtMs: InstantMs | null
  /** Who is asked to take it now. */
  readonly asked: { readonly name: string | null } | null
}

export type DeskNests = {
  /** Trouble first, then the latest. */
  readonly rows: readonly DeskNest[]
  readonly counts: Readonly<Record<NestGroup, number>>
}

function groupOf(type: NestState['type']): NestGroup {
  switch (type) {
    case 'late':
      return 'late'
    case 'claimed':
      return 'hands'
    case 'held':
    case 'settling':
      return 'hold'
    case 'due':
    case 'soon':
    case 'later':
    case 'unplanned':
      return 'coming'
    default:
      return unreachable(type)
  }
}

const urgency: readonly Trouble[] = ['help', 'short', 'fluids', 'noDroppings']

function troubleOf(board: Board, nest: Nest): Trouble | null {
  const kinds = openRequests(board).flatMap((request) =>
    request.nest === nest.id ? [request.kind] : [],
  )
  return urgency.find((kind) => (kind === 'short' ? nest.short : kinds.includes(kind))) ?? null
}

export const codesOf = (birds: readonly Bird[]): readonly string[] => [
  ...new Set(birds.flatMap((bird) => bird.species ?? [])),
]

function everyOf(board: Board, birds: readonly Bird[]): DeskNest['every'] {
  const lengths = birds.map((bird) => intervalMs(board, bird)).filter((ms) => ms > 0)
  if (lengths.length === 0) return null
  return { loMs: Math.min(...lengths), hiMs: Math.max(...lengths) }
}

function rowOf(board: Board, names: PublicNames, nest: Nest, nowMs: InstantMs): DeskNest {
  const summary = nestSummary(board, names, { nest, nowMs })
  const birds = birdsOf(board, nest.id)
  const fed = birds.flatMap((bird) => lastFedAtMs(bird) ?? [])
  return {
    ...summary,
    group: groupOf(summary.state.type),
    trouble: troubleOf(board, nest),
    species: codesOf(birds),
    every: everyOf(board, birds),
    lastFedAtMs: fed.length === 0 ? null : Math.max(...fed),
    asked: nest.offer ? { name: nameOf(board, names, nest.offer.person) } : null,
  }
}

const inDeskOrder = (a: DeskNest, b: DeskNest): number => {
  const place = ({ trouble }: DeskNest) => (trouble ? urgency.indexOf(trouble) : urgency.length)
  return place(a) - place(b) || inWaitingOrder(a, b)
}

/** Every nest of the room at `nowMs`, and how many stand under each filter. */
export function deskNests(board: Board, names: PublicNames, nowMs: InstantMs): DeskNests {
  const rows = Object.values(board.nests)
    .map((nest) => rowOf(board, names, nest, nowMs))
    .sort(inDeskOrder)
  const count = (group: NestGroup) => rows.filter((row) => row.group === group).length
  return {
    rows,
    counts: {
      late: count('late'),
      hands: count('hands'),
      coming: count('coming'),
      hold: count('hold'),
    },
  }
}
