// The one writer of a room. Commands wait in one line; whatever waits when a flush has returned makes
// the next batch, is decided in order, written with one flush, and only then seen and answered. So
// nothing is ever decided while a flush runs, and the working board lives no longer than its batch.
//
//   take ─▶ waiting ─▶ [turn turn turn] ─▶ private text ─▶ journal ─▶ durable board ─▶ screens ─▶ answers
//              ▲ the next ones gather here   └───────── one flush ─────────┘
//
// After a failed write or flush everybody is turned away until the room is opened anew from disk.

import type { Answer, Fault, HouseCondition, RecordFrame } from '../../shared/wire/frames.ts'
import type { Lanes } from '../lanes/lanes.ts'
import type { Log } from '../log/log.ts'
import { flush } from './flush.ts'
import { findAnswer } from './forgotten.ts'
import { serverTurn, wallClockTurn } from './ownTurns.ts'
import type { ScribeBugs } from './plantedBugs.ts'
import type { Brain, ClockPort, JournalPort, PrivatePort, TimersPort } from './ports.ts'
import { type Taken, takeTurn, turnTime } from './turn.ts'
import {
  batchMax,
  faultFor,
  type ServerRecorded,
  type ServerTurn,
  turnAway,
  type Waiting,
  waitingMax,
} from './waiting.ts'
import { Wake } from './wake.ts'
import { type Draft, type Durable, type Working, withTime, workingFrom } from './working.ts'

export type ScribeParts = {
  readonly durable: Durable
  readonly lanes: Lanes
  readonly journal: JournalPort
  readonly privateFile: PrivatePort
  readonly clock: ClockPort
  readonly timers: TimersPort
  readonly brain: Brain
  readonly log: Log
  /** Called once for each record, in order, when it is durable. */
  readonly publish: (frame: RecordFrame) => void
  /** Called once, when a write or flush has failed and nothing more is taken. */
  readonly onFailure: (condition: HouseCondition) => void
  readonly epoch: number
  readonly speed: number
  readonly bugs: ScribeBugs
}

/** Old answers looked for in the journal at once; each reads files that others wait for too. */
const lookUpsMax = 2

/** The working side after a turn, and what is said to whoever waits once that is durable. */
type Turned = { readonly working: Working; readonly say: () => void }
type WaitingCommand = Extract<Waiting, { type: 'command' }>

export class Scribe {
  readonly #parts: ScribeParts
  readonly #wake: Wake
  readonly #waiting: Waiting[] = []
  readonly #lanesLookedUp = new Set<string>()
  #durable: Durable
  #isFailing = false
  #isStopped = false
  /** A time rule threw: it is not asked again at once. */
  #isTimeStuck = false
  #running: Promise<void> | null = null

  constructor(parts: ScribeParts) {
    this.#parts = parts
    this.#durable = parts.durable
    this.#wake = new Wake(parts, () => void this.tick())
  }

  /** What is on disk, and no more. */
  get durable(): Durable {
    return this.#durable
  }

  /** Settles with the command's answer once everything it rests on is durable. Never rejects. */
  take(taken: Taken): Promise<Answer | Fault> {
    const arrivedAtMs = this.#parts.clock.nowMs()
    if (!this.#parts.lanes.hasPlaceFor(taken.lane, arrivedAtMs)) {
      return Promise.resolve(faultFor(taken, 'tooMany'))
    }
    return new Promise((reply) => {
      this.#put({ type: 'command', arrived: { ...taken, arrivedAtMs }, reply })
    })
  }

  /** Writes what the server itself has to say; its events come before any time rule. Never rejects. */
  record(turn: ServerTurn): Promise<ServerRecorded> {
    return new Promise((reply) => this.#put({ type: 'server', turn, reply }))
  }

  /** Applies what time has made due, and wakes itself from then on. Never rejects. */
  tick(): Promise<void> {
    return new Promise((reply) => this.#put({ type: 'clock', reply }))
  }

  /** Turns newcomers away and returns when the last batch is done with. */
  async stop(): Promise<void> {
    this.#isStopped = true
    this.#wake.stop()
    await this.#running
  }

  #put(waiting: Waiting): void {
    if (this.#isFailing) turnAway(waiting, 'journalFailing')
    else if (this.#isStopped || this.#waiting.length >= waitingMax) turnAway(waiting, 'busy')
    else {
      this.#waiting.push(waiting)
      this.#running ??= this.#run()
    }
  }

  async #run(): Promise<void> {
    // One step later, so that all who came at the same moment share the first flush.
    await Promise.resolve()
    while (this.#waiting.length > 0) await this.#batch()
    this.#running = null
    this.#sleep()
  }

  async #batch(): Promise<void> {
    const batch = this.#waiting.splice(0, batchMax)
    let working = workingFrom(this.#durable)
    const says: (() => void)[] = []
    for (const waiting of batch) {
      const turned = this.#turn(waiting, working)
      working = turned.working
      says.push(turned.say)
    }
    working = this.#settleTime(working)
    if (this.#parts.bugs.answersBeforeFlush) this.#finish(working, says)
    if (!(await this.#makeDurable(working))) this.#fail(batch)
    else if (!this.#parts.bugs.answersBeforeFlush) this.#finish(working, says)
  }

  #turn(waiting: Waiting, working: Working): Turned {
    try {
      switch (waiting.type) {
        case 'command':
          return this.#command(waiting, working)
        case 'server': {
          const after = serverTurn(this.#parts, working, waiting.turn)
          const recorded = { status: 'recorded', version: after.version } as const
          return { working: after, say: () => waiting.reply(recorded) }
        }
        case 'clock':
          return { working, say: waiting.reply }
      }
    } catch (err) {
      const who = waiting.type === 'command' ? waiting.arrived : null
      const id = who === null ? {} : { lane: who.lane, n: who.n }
      this.#parts.log.error({ ...id, err }, 'a rule failed; nothing was applied')
      return { working, say: () => turnAway(waiting, 'internal') }
    }
  }

  #command({ arrived, reply }: WaitingCommand, working: Working): Turned {
    // Answers come in the order of a lane's numbers, so what follows a slow look-up must come again.
    if (this.#lanesLookedUp.has(arrived.lane)) {
      return { working, say: () => reply(faultFor(arrived, 'busy')) }
    }
    const turned = takeTurn(this.#parts, working, arrived)
    switch (turned.type) {
      case 'answer':
        return { working: turned.working, say: () => reply(turned.answer) }
      case 'gap': {
        const fault = { ...faultFor(arrived, 'laneGap'), expected: turned.expected }
        return { working, say: () => reply(fault) }
      }
      case 'forgotten':
        return { working, say: this.#lookUp(arrived, reply) }
    }
  }

  /** Keeps the lane waiting from now on; what it returns starts the look-up. */
  #lookUp(arrived: Taken, reply: (answer: Answer | Fault) => void): () => void {
    if (this.#lanesLookedUp.size >= lookUpsMax) return () => reply(faultFor(arrived, 'busy'))
    const { lane, n } = arrived
    this.#lanesLookedUp.add(lane)
    return async () => {
      try {
        reply(await findAnswer(this.#parts.journal, { lane, n }, this.#durable.version))
      } catch (err) {
        this.#parts.log.error({ lane, n, err }, 'an old answer could not be looked up')
        reply(faultFor(arrived, 'internal'))
      } finally {
        this.#lanesLookedUp.delete(lane)
      }
    }
  }

  /**
   * At the end of a batch nothing is left due, so that no screen sees a board that is behind. The wall
   * clock is looked at here too: a busy room puts off its own waking for ever.
   */
  #settleTime(working: Working): Working {
    const { brain, epoch, bugs, log } = this.#parts
    if (bugs.sleepsThroughTime) return working
    this.#isTimeStuck = false
    try {
      const set = wallClockTurn(this.#parts, working)
      return withTime(brain, set, { nowMs: turnTime(this.#parts, set), epoch })
    } catch (err) {
      this.#isTimeStuck = true
      log.error({ err }, 'a time rule failed; nothing was applied')
      return working
    }
  }

  async #makeDurable(working: Working): Promise<boolean> {
    try {
      await flush(this.#parts, working, this.#parts.bugs)
      return true
    } catch (err) {
      this.#parts.log.error({ version: working.version, err }, 'a write failed: room is read-only')
      if (this.#parts.bugs.shrugsAtFailedFlush) return true
      return false
    }
  }

  #finish(working: Working, says: readonly (() => void)[]): void {
    const { board, version, lastAtMs } = working
    this.#durable = { board, version, lastAtMs }
    for (const [id, lane] of working.lanes) this.#parts.lanes.set(id, lane)
    for (const draft of working.drafts) this.#publish(draft)
    for (const say of says) say()
  }

  #publish({ entry, names: refs }: Draft): void {
    const { version, atMs, cause, by, events } = entry
    try {
      const names = refs.length === 0 ? {} : { names: this.#parts.privateFile.namesOf(refs) }
      this.#parts.publish({ type: 'record', version, atMs, cause, by, events, ...names })
    } catch (err) {
      this.#parts.log.error({ version, err }, 'a record did not reach the screens')
    }
  }

  #fail(batch: readonly Waiting[]): void {
    this.#isFailing = true
    this.#wake.stop()
    this.#parts.onFailure({ type: 'journalFailing', sinceMs: this.#parts.clock.nowMs() })
    const everyone = [...batch, ...this.#waiting.splice(0)]
    for (const waiting of everyone) turnAway(waiting, 'journalFailing')
  }

  #sleep(): void {
    const { brain, bugs, log } = this.#parts
    if (this.#isFailing || this.#isStopped || bugs.sleepsThroughTime) return
    try {
      this.#wake.sleepUntil(this.#isTimeStuck ? null : brain.nextWakeAtMs(this.#durable.board))
    } catch (err) {
      log.error({ err }, 'a time rule failed; it is asked again in a while')
      this.#wake.sleepUntil(null)
    }
  }
}
