// Sending this device's lane: one number at a time, in order, each until it has its answer. The server
// takes number n only when it has settled n - 1, so whatever is not to be sent as itself any more
// (an ask nobody waits for, a report put aside, a number nobody holds a body for) goes out as a
// withdrawal: nothing blocks the lane. A repeat gets its first answer, so a withdrawal can come back
// applied, which says that the thing had got through.
//
//   next number = the lowest that waits here or is owed, or the one after the server's last

import type { LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { AnswerFrame, CommandFrame, Fault, FaultCode } from '../../shared/wire/frames.ts'
import { retryBackoff, waitMs } from './backoff.ts'
import { treatmentOf } from './faultTreatment.ts'
import type { OpenAsks } from './openAsks.ts'
import type { Held, HeldStuck, Outbox } from './outbox.ts'
import type { Chance, Timers } from './ports.ts'
import { Settling, type SettlingEvents, type SettlingRoom } from './settling.ts'
import { timingOf } from './timing.ts'

export interface LaneRoom extends SettlingRoom {
  send(frame: CommandFrame): void
  reconnect(): void
  readonly signedIn: readonly PersonId[]
}

export interface LaneEvents extends SettlingEvents {
  /** What is waiting, stuck or in flight is no longer what it was. */
  changed(): void
}

export type LaneParts = {
  readonly outbox: Outbox
  readonly asks: OpenAsks
  readonly timers: Timers
  readonly chance: Chance
  readonly room: LaneRoom
  readonly events: LaneEvents
}

/** A server that flushes slowly answers within this; after it the same number is sent again. */
const answerMaxMs: LengthMs = 5_000
/**
 * `internal` may be the server's trouble or this very report's. After so many in a row it is taken for
 * the report's and put aside; if it was the server's after all, the withdrawal fails in the same way and
 * everything behind it goes on waiting, so a server gone wrong costs one report its place and no more.
 */
const internalMax = 10

const withdrawn: Command = { type: 'Withdrawn', v: 1 }

export class LaneSender {
  readonly #parts: LaneParts
  readonly #settling: Settling
  /** The last number the server has settled; null until the lane is taken on over this link. */
  #serverN: number | null = null
  #link = 0
  #flight: number | null = null
  /** Reads and writes of the store that the next number waits for. */
  #works = 0
  #isPausing = false
  #failures = 0
  #cancelTimer: () => void = () => undefined

  constructor(parts: LaneParts) {
    this.#parts = parts
    this.#settling = new Settling(parts)
  }

  get isReady(): boolean {
    return this.#serverN !== null
  }
  get inFlight(): number | null {
    return this.#flight
  }

  /** The server has named the lane and how far it has come. */
  async welcomed(lane: string, laneN: number): Promise<void> {
    const { outbox, events } = this.#parts
    const link = this.#newLink()
    const isAdopted = await outbox.adopt(lane, laneN)
    if (isAdopted) await outbox.owe(laneN + 1)
    if (link !== this.#link) return
    if (isAdopted) {
      this.#serverN = laneN
      this.pump()
    } else this.#pause(() => void this.welcomed(lane, laneN))
    events.changed()
  }

  lost(): void {
    this.#newLink()
    this.#parts.asks.lost()
  }

  /** Sends the next number if there is one and nothing is in the way. */
  pump(): void {
    if (this.#serverN === null || this.#isHindered()) return
    const n = this.#nextN(this.#serverN)
    if (n === null) return
    if (this.#isUnread(n)) void this.#work(() => this.#read())
    else this.#send(n)
  }

  /** An answer to a number never given out, or answered already, changes nothing. */
  answered({ lane, n, answer }: AnswerFrame): void {
    const { outbox } = this.#parts
    if (this.#serverN === null || lane !== outbox.lane || n > outbox.lastN) return
    if (n === this.#flight) this.#landed()
    this.#failures = 0
    this.#serverN = Math.max(this.#serverN, n)
    void this.#work(() => this.#settling.answered(n, answer))
  }

  /** Nobody waits for this ask any more; its number goes out as a withdrawal. */
  expired(n: number): void {
    if (n === this.#flight) this.#landed()
    this.pump()
    this.#parts.events.changed()
  }

  /** A fault that names no number is about the one in flight. */
  faulted(fault: Fault): void {
    const n = this.#flight
    if (n === null || (fault.n !== undefined && fault.n !== n)) return
    if (fault.lane !== undefined && fault.lane !== this.#parts.outbox.lane) return
    const treatment = treatmentOf(fault.code)
    if (treatment === 'ignore') return
    this.#landed()
    if (treatment === 'reconnect') this.#parts.room.reconnect()
    else if (treatment === 'rewind') this.#rewind(n, fault.expected)
    else if (treatment === 'setAside') this.#refused(n, fault.code)
    else if (fault.code === 'internal' && this.#failures >= internalMax)
      this.#refused(n, 'internal')
    else this.#pause(() => this.pump())
  }

  #nextN(serverN: number): number | null {
    const { outbox } = this.#parts
    const [waiting] = outbox.waiting()
    const owed = outbox.stuck().filter(({ entry }) => this.#isOwed(entry))
    const numbers = owed.map(({ entry }) => entry.n)
    if (waiting !== undefined) numbers.push(waiting.entry.n)
    if (serverN < outbox.lastN) numbers.push(serverN + 1)
    return numbers.length === 0 ? null : Math.min(...numbers)
  }

  #isOwed({ lane, number }: HeldStuck['entry']): boolean {
    return number === 'owed' && lane === this.#parts.outbox.lane
  }

  /** Another tab may hold it: before a number is withdrawn for want of a body, the store is read. */
  #isUnread(n: number): boolean {
    const { outbox } = this.#parts
    return outbox.held(n) === undefined && !outbox.isForgotten(n)
  }

  async #read(): Promise<void> {
    const isRead = await this.#parts.outbox.read()
    if (!isRead) this.#pause(() => this.pump())
  }

  #send(n: number): void {
    const { outbox, asks, room, timers, events } = this.#parts
    const held = outbox.held(n)
    const about = held ?? outbox.stuckWithNumber(n)
    const body = held !== undefined && this.#goesAsItself(held) ? held.entry.body : withdrawn
    const by = this.#speaker(about, body)
    if (by === undefined || outbox.lane === null) return
    const timing =
      about === undefined
        ? { notedAgoMs: 0, heardAtMs: 0 }
        : timingOf(about.entry, about.origin, timers)
    this.#flight = n
    this.#cancelTimer = timers.after(answerMaxMs, () => {
      this.#landed()
      this.pump()
    })
    asks.sent(n)
    room.send({ type: 'command', lane: outbox.lane, n, by, timing, body })
    events.changed()
  }

  /**
   * An ask goes as itself only from the page life in which somebody waits for it. One that another tab
   * noted and has not sent yet is withdrawn by this rule too, and its person told to ask again; an ask
   * sent by two tabs, or by a page nobody looks at any more, would be the greater harm.
   */
  #goesAsItself({ entry }: Held): boolean {
    return entry.kind === 'report' || this.#parts.asks.isOpen(entry.n)
  }

  /**
   * A withdrawal is nobody's deed: where its own person has signed out, anyone signed in here, or
   * whoever noted the next entry, may carry it. With nobody to name, nothing waits behind it either.
   */
  #speaker(about: Held | HeldStuck | undefined, body: Command): PersonId | undefined {
    const { outbox, room } = this.#parts
    const own = about?.entry.by
    if (body !== withdrawn) return own
    const present = room.signedIn
    if (own !== undefined && present.includes(own)) return own
    return present[0] ?? own ?? outbox.waiting()[0]?.entry.by
  }

  /** The number will not be taken with this body. A withdrawal that is not taken can only be repeated. */
  #refused(n: number, code: FaultCode): void {
    const { outbox, asks, room } = this.#parts
    const held = outbox.held(n)
    if (held?.entry.kind === 'report') void this.#work(() => this.#settling.refused(held, code))
    else if (asks.close(n, { status: 'fault', code })) this.pump()
    else if (code === 'laneNotYours') room.reconnect()
    else this.#pause(() => this.pump())
  }

  /** Where the server waits for an earlier number it has lost answers; for a later one, we have. */
  #rewind(n: number, expected: number | undefined): void {
    const { outbox, room } = this.#parts
    if (expected === undefined || expected === n) {
      this.#pause(() => this.pump())
      return
    }
    this.#serverN = expected - 1
    if (expected < n) void this.#work(() => outbox.owe(expected))
    else void this.#work(() => this.#settling.overtaken(n))
    if (expected - 1 > outbox.lastN) room.reconnect()
  }

  #newLink(): number {
    this.#link += 1
    this.#serverN = null
    this.#isPausing = false
    this.#failures = 0
    this.#landed()
    return this.#link
  }

  #landed(): void {
    this.#flight = null
    this.#cancelTimer()
  }

  #isHindered(): boolean {
    return this.#flight !== null || this.#works > 0 || this.#isPausing
  }

  #pause(then: () => void): void {
    const { timers, chance } = this.#parts
    this.#failures += 1
    this.#isPausing = true
    this.#cancelTimer()
    this.#cancelTimer = timers.after(waitMs(retryBackoff, this.#failures, chance), () => {
      this.#isPausing = false
      then()
    })
  }

  /** Store first, then the next number; so a reload finds at most one number that was already answered. */
  async #work(run: () => Promise<void>): Promise<void> {
    this.#works += 1
    try {
      await run()
    } finally {
      this.#works -= 1
    }
    this.#parts.events.changed()
    this.pump()
  }
}
