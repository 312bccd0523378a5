// Given what had happened, when somebody orders something or the clock moves on, then these facts
// follow or this reason is given. A turn here goes as the room's own turn does: rules about time
// first, until none is due, then the order. Named `gives` and not `then`, which would make it a promise.

import { expect } from 'vitest'
import { assert } from '../../shared/base/control.ts'
import type { LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { EventOf, EventType, RoomEvent } from '../../shared/board/events.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import type { Context } from '../../shared/rules/context.ts'
import { decide } from '../../shared/rules/decide.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import type { Rejection } from '../../shared/rules/rejection.ts'
import { decideTime } from '../../shared/rules/time.ts'
import { type Clock, clock } from './roomBuilder.ts'

/** As deep as it goes, so that the tables of a test may be constants. */
type Frozen<T> = T extends string
  ? T
  : T extends object
    ? { readonly [K in keyof T]: Frozen<T[K]> }
    : T
type Unversioned<C> = C extends unknown ? Frozen<Omit<C, 'v'>> : never
/** A command without its version, which is 1 everywhere so far. */
export type Order = Unversioned<Command>

/** An event as far as a rule fixes it; what is left out may be anything. */
export type Fact = {
  [T in EventType]: { readonly type: T } & Frozen<Partial<EventOf<T>>>
}[EventType]
type Reason = { [R in Rejection as R['code']]: Pick<R, 'code'> & Partial<R> }[Rejection['code']]

export type { Reason }

export type Said = {
  readonly by: PersonId
  readonly at: Clock
  /** When the visit began by the device, where it saw that. */
  readonly startedAt?: Clock
  /** How long before `at` it was noted. */
  readonly agoMs?: LengthMs
  readonly daysLater?: number
  readonly private?: PrivateRef
}

/** More time rules than this in one turn is a loop. */
const timeRulesMax = 1_000

/** Every event the clock alone brings at this instant, as one list, and the board after them. */
export function letTimePass(board: Board, nowMs: number): { board: Board; events: RoomEvent[] } {
  const events: RoomEvent[] = []
  let after = board
  for (let rule = 0; rule < timeRulesMax; rule += 1) {
    const next = decideTime(after, nowMs)
    if (next.length === 0) return { board: after, events }
    events.push(...next)
    after = foldEvents(after, next)
  }
  throw new Error(`the rules about time do not come to rest at ${nowMs}`)
}

export function contextOf(said: Said): Context {
  const nowMs = clock(said.at, said.daysLater)
  const agoMs = said.agoMs ?? 0
  return {
    by: said.by,
    nowMs,
    agoMs,
    notedAtMs: nowMs - agoMs,
    startedAtMs: said.startedAt === undefined ? null : clock(said.startedAt, said.daysLater),
    isBounded: false,
    ...(said.private ? { private: said.private } : {}),
  }
}

const byType = (events: readonly { type: string }[]) =>
  [...events].sort((a, b) => (a.type < b.type ? -1 : a.type > b.type ? 1 : 0))

/** What is asked of people about late nests; of other rules it says nothing. */
const offerFacts: ReadonlySet<EventType> = new Set(['OfferMade', 'OfferEnded', 'LeadTold'])

/** What came of one turn. */
class Turn {
  constructor(
    readonly events: readonly RoomEvent[],
    readonly reason: Rejection | null,
    readonly board: Board,
  ) {}

  /** Exactly these facts, in any order. */
  gives(...facts: readonly Fact[]): Given {
    expect(this.reason).toBeNull()
    expect(byType(this.events)).toMatchObject(byType(facts))
    return new Given(this.board)
  }

  /** These facts at least, for a cell that names only part of what follows. */
  includes(...facts: readonly Fact[]): this {
    expect(this.reason).toBeNull()
    for (const fact of facts) {
      expect(this.events).toEqual(expect.arrayContaining([expect.objectContaining(fact)]))
    }
    return this
  }

  /** The same turn without what late nests bring by the clock, which offerTable.test.ts is about. */
  get besideOffers(): Turn {
    const rest = this.events.filter(({ type }) => !offerFacts.has(type))
    return new Turn(rest, this.reason, this.board)
  }

  leavesOut(...types: readonly EventType[]): this {
    expect(this.events.map((event) => event.type).filter((type) => types.includes(type))).toEqual(
      [],
    )
    return this
  }

  refuses(reason: Reason): Given {
    expect(this.reason).toMatchObject(reason)
    return new Given(this.board)
  }

  /** The room as it stands after this turn, to go on from. */
  get room(): Given {
    return new Given(this.board)
  }
}

export type { Turn }

/** A room with a past. */
export class Given {
  constructor(readonly board: Board) {}

  and(...events: readonly (RoomEvent | readonly RoomEvent[])[]): Given {
    return new Given(foldEvents(this.board, events.flat() as readonly RoomEvent[]))
  }

  when(order: Order, said: Said): Turn {
    const before = letTimePass(this.board, clock(said.at, said.daysLater)).board
    const result = decide(before, { v: 1, ...order } as Command, contextOf(said))
    if (!result.ok) return new Turn([], result.error, before)
    return new Turn(result.value, null, foldEvents(before, result.value))
  }

  /** The clock moves on to this time and nobody says anything. */
  whenClock(at: Clock, daysLater = 0): Turn {
    const { board, events } = letTimePass(this.board, clock(at, daysLater))
    return new Turn(events, null, board)
  }
}

export const given = (...events: readonly (RoomEvent | readonly RoomEvent[])[]): Given =>
  new Given(emptyBoard).and(...events)

/** The part of a board a test relies on having built. */
export function known<T>(part: T | null | undefined, what: string): T {
  assert(part !== null && part !== undefined, `the test's room has no ${what}`)
  return part
}
