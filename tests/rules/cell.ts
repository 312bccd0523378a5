// One cell of a table: what had happened, who orders what and when, and what must follow. The tables
// themselves are data in the test files; this file only runs a row of them.

import type { EventType } from '../../shared/board/events.ts'
import type { Fact, Given, Order, Reason, Said } from '../support/given.ts'
import type { Clock } from '../support/roomBuilder.ts'

/** Whose hands the nest is in, seen from the person who speaks. */
export type Hands = 'free' | 'held by me' | 'held by another'

export type Outcome =
  | { readonly gives: readonly Fact[] }
  | { readonly includes: readonly Fact[]; readonly leavesOut?: readonly EventType[] }
  | { readonly refuses: Reason }

export type Cell = {
  readonly row: string
  readonly hands: Hands
  readonly given: Given
  readonly when: readonly [Order, Said]
  readonly follows: Outcome
}

export type TimeCell = {
  readonly row: string
  readonly given: Given
  readonly at: readonly [Clock, number?]
  readonly gives: readonly Fact[]
}

/** Runs the cell, and hands on the room after it. */
export function checkCell(cell: Cell): Given {
  const turn = cell.given.when(...cell.when)
  const { follows } = cell
  if ('refuses' in follows) return turn.refuses(follows.refuses)
  if ('gives' in follows) return turn.gives(...follows.gives)
  return turn.includes(...follows.includes).leavesOut(...(follows.leavesOut ?? [])).room
}

/** Of everything but offers and notices, which the clock brings beside it wherever a nest is late. */
export const checkTimeCell = (cell: TimeCell): Given =>
  cell.given.whenClock(...cell.at).besideOffers.gives(...cell.gives)
