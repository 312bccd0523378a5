// A demo room in memory: each order goes through the rules as it would on the server, so that what comes
// next can follow from it, and an order the rules would not take is found out here. It reads no clock.

import { assert } from '../shared/base/control.ts'
import type { InstantMs, LengthMs, PrivateId } from '../shared/base/values.ts'
import type { EventOf } from '../shared/board/events.ts'
import { type Board, emptyBoard } from '../shared/board/state.ts'
import { decide } from '../shared/rules/decide.ts'
import { foldEvents } from '../shared/rules/evolve.ts'
import { foundingEvents, openingEvents } from '../shared/rules/founding.ts'
import { decideTime } from '../shared/rules/time.ts'
import type { DemoRoom, Step } from './demoRoom.ts'
import { person } from './ids.ts'

/** Names and notes stand in a private file; here nobody reads them. */
const unread = { id: 'x1' as PrivateId, hash: '0'.repeat(64) }

/** Open around the clock, so that the demo lives whenever somebody looks at it. */
export const demoHours = { opensMinute: 0, closesMinute: 24 * 60 } as const

/** When the room was founded, and by whose clock on the wall its days begin. */
export type Founded = { readonly foundedAtMs: InstantMs; readonly zone: string }

export class Rehearsal {
  readonly steps: Step[] = []
  readonly #foundedAtMs: InstantMs
  #board: Board

  constructor({ id, title, people: [founder] }: DemoRoom, { foundedAtMs, zone }: Founded) {
    this.#foundedAtMs = foundedAtMs
    const room = { room: id, season: 'rehearsal', title, zone, ...demoHours, civilOffsetMs: 0 }
    const { role, signOffs } = founder
    const added: EventOf<'PersonAdded'> = {
      ...{ type: 'PersonAdded', v: 1, person: person(1), role },
      ...{ signOffs: [...signOffs], name: unread },
    }
    this.#board = foldEvents(emptyBoard, [
      ...foundingEvents({ ...room, nowMs: foundedAtMs }),
      ...openingEvents(emptyBoard, foundedAtMs),
      added,
    ])
  }

  atMs(afterMs: LengthMs): InstantMs {
    return this.#foundedAtMs + afterMs
  }

  /** The board as whoever looks then finds it, with what time has done by then. */
  boardAt(afterMs: LengthMs): Board {
    return timePassed(this.#board, this.atMs(afterMs))
  }

  /** Throws on an order that is refused or set aside: then the script and the rules have parted. */
  take(step: Step): void {
    const { afterMs, by, command } = step
    const nowMs = this.atMs(afterMs)
    const before = timePassed(this.#board, nowMs)
    const times = { nowMs, agoMs: 0, notedAtMs: nowMs, startedAtMs: null, isBounded: false }
    const decided = decide(before, command, { by, ...times, private: unread })
    const what = `the demo's ${command.type} by ${by}, ${afterMs} ms after the founding`
    assert(decided.ok, `${what} is taken: ${JSON.stringify(decided)}`)
    const isAside = decided.value.some(({ type }) => type === 'ReportSetAside')
    assert(!isAside, `${what} is applied`)
    this.#board = foldEvents(before, decided.value)
    this.steps.push(step)
  }
}

/** Every rule's events take away what made it hold, so this ends; a wrong one is stopped. */
const passesMax = 1_000

function timePassed(board: Board, nowMs: InstantMs): Board {
  let passed = board
  for (let pass = 0; pass < passesMax; pass += 1) {
    const events = decideTime(passed, nowMs)
    if (events.length === 0) return passed
    passed = foldEvents(passed, events)
  }
  throw new Error(`time does not come to rest at ${nowMs}`)
}
