// One room as it is served: the scribe that writes it, and what everybody may see of it, which is the
// durable board and never a newer one. Made by `openRoom.ts`; used by the gateway, the demo, the
// simulator and whoever answers for the machine.

import { type LengthMs, secondMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Answer, Fault, HouseCondition, Names, RecordFrame } from '../../shared/wire/frames.ts'
import { RoomClock } from '../clock/roomClock.ts'
import { Lanes } from '../lanes/lanes.ts'
import { civilTimeEvents } from '../scribe/ownTurns.ts'
import { Scribe } from '../scribe/scribe.ts'
import type { Taken } from '../scribe/turn.ts'
import type { ServerRecorded, ServerTurn } from '../scribe/waiting.ts'
import type { Known } from './folding.ts'
import { House } from './house.ts'
import { type ReadRoom, type RoomParts, readRoom } from './readRoom.ts'
import { Recent } from './recent.ts'
import { Snapshotting } from './snapshotting.ts'

/**
 * A room that could not write tries its disk again this often, for as long as it is served: a disk
 * that was full at four in the morning is emptied by somebody who does not know that a program waits
 * for it. One try reads the newest day's file and writes it anew, and until it succeeds nothing is
 * acknowledged.
 */
const reopenEveryMs: LengthMs = 30 * secondMs

export type Tell = (record: RecordFrame) => void

type Live = ReadRoom & { readonly scribe: Scribe }

export class Room {
  readonly id: string
  readonly speed: number
  readonly epoch: number
  readonly #parts: RoomParts
  readonly #clock: RoomClock
  readonly #house: House
  readonly #recent: Recent
  readonly #snapshotting: Snapshotting
  readonly #listeners = new Set<Tell>()
  #live: Live
  #reopening: Promise<boolean> | null = null
  #cancelReopen: (() => void) | null = null
  #isClosed = false
  #hashed: { readonly board: Board; readonly hash: number } | null = null

  constructor(parts: RoomParts, read: ReadRoom, frames: readonly RecordFrame[]) {
    this.id = parts.room
    this.speed = parts.speed
    this.epoch = read.journal.head.epoch + (parts.isRestored ? 1 : 0)
    this.#parts = parts
    const { clockSource, speed } = parts
    this.#clock = new RoomClock({ ...clockSource, lastRecordMs: read.lastAtMs, speed })
    this.#house = new House(this.#clock.nowMs(), this.#clock.gapAtStartMs)
    this.#recent = new Recent(frames)
    const savedVersion = read.journal.head.version - read.newFrames.length
    const snapshotParts = { ...parts, hashBoard: parts.brain.hashBoard }
    this.#snapshotting = new Snapshotting(snapshotParts, savedVersion, () => this.#known())
    this.#live = this.#serve(read)
  }

  // What everybody may see.

  get durable(): { readonly version: number; readonly board: Board } {
    const { version, board } = this.#live.scribe.durable
    return { version, board }
  }

  nowMs(): number {
    return this.#clock.nowMs()
  }

  /** The durable board's hash; kept while the board does not change. */
  hash(): number {
    const { board } = this.#live.scribe.durable
    if (this.#hashed?.board !== board) {
      this.#hashed = { board, hash: this.#parts.brain.hashBoard(board) }
    }
    return this.#hashed.hash
  }

  house(): readonly HouseCondition[] {
    return this.#house.conditions(this.nowMs())
  }

  /** What screens may show beside the board: people's names, notes on nests and on calls, by id. */
  names(): Names {
    const { people, nests, requests } = this.#live.scribe.durable.board
    const notes = [...Object.values(nests), ...Object.values(requests)].map(({ noteId }) => noteId)
    const ids = [...Object.values(people).map((person) => person.nameId), ...notes]
    return this.#live.privateFile.namesOf(ids.flatMap((id) => (id === null ? [] : [{ id }])))
  }

  /** Every record after `version`, or null when they are too many or `version` is not of this past. */
  recordsAfter(version: number): readonly RecordFrame[] | null {
    const records = this.#recent.after(version, this.#live.scribe.durable.version)
    return this.#parts.bugs.resumesOneShort ? (records?.slice(1) ?? null) : records
  }

  /** The last records, earliest first: at most so many, and no more than screens are ever sent. */
  lastRecords(count: number): readonly RecordFrame[] {
    return this.#recent.last(count)
  }

  /** Calls back with each record as it becomes durable, in order; returns how to stop. */
  subscribe(tell: Tell): () => void {
    this.#listeners.add(tell)
    return () => this.#listeners.delete(tell)
  }

  // What changes it.

  /** The last number of this lane that has its answer; 0 for a new one. */
  laneN(lane: string): number {
    return this.#live.lanes.get(lane)?.settledN ?? 0
  }

  take(taken: Taken): Promise<Answer | Fault> {
    return this.#live.scribe.take(taken)
  }

  /** Writes what the server itself has to say, as one record. */
  record(turn: ServerTurn): Promise<ServerRecorded> {
    return this.#live.scribe.record(turn)
  }

  /**
   * Opens the journal anew from disk after a failed write, and serves on when it can be written
   * again. True when the room can be written to. Tried by itself every half minute while it cannot.
   */
  reopen(): Promise<boolean> {
    if (this.#isClosed || !this.#house.isFailing) return Promise.resolve(!this.#isClosed)
    this.#reopening ??= this.#reopen().finally(() => {
      this.#reopening = null
    })
    return this.#reopening
  }

  /** Looks through the whole journal for damage, which then stands in the heartbeat. */
  async scrub(pause: () => Promise<void>): Promise<readonly string[]> {
    const findings = await this.#live.journal.scrub(pause)
    this.#house.foundDamage(findings.map(({ file }) => file))
    return findings.map(({ sentence }) => sentence)
  }

  /** Lets the last batch finish, takes a last snapshot and lets go of the files. */
  async close(): Promise<void> {
    this.#isClosed = true
    this.#cancelReopen?.()
    await this.#reopening
    await this.#live.scribe.stop()
    await this.#snapshotting.saveLast()
    await this.#letGo()
  }

  #serve(read: ReadRoom): Live {
    const { board, lanes, journal, lastAtMs, privateFile } = read
    const { timers, brain, log, speed, bugs } = this.#parts
    const scribe = new Scribe({
      durable: { board, version: journal.head.version, lastAtMs: lastAtMs ?? 0 },
      ...{ lanes, journal, privateFile, timers, brain, log, speed, bugs },
      ...{ clock: this.#clock, epoch: this.epoch },
      publish: (frame) => this.#publish(frame),
      onFailure: (condition) => this.#failed(condition),
    })
    return { ...read, scribe }
  }

  #publish(frame: RecordFrame): void {
    this.#recent.add(frame)
    for (const tell of this.#listeners) {
      try {
        tell(frame)
      } catch (err) {
        const { room, log } = this.#parts
        log.error({ room, version: frame.version, err }, 'a listener failed at a record')
      }
    }
    this.#snapshotting.recordWritten(frame.version)
  }

  /** The room as it stands on disk, or null while that is not known to be one and the same version. */
  #known(): Known | null {
    const { journal, lanes, scribe } = this.#live
    if (journal.head.version !== scribe.durable.version) return null
    return { head: journal.head, board: scribe.durable.board, lanes }
  }

  #failed(condition: HouseCondition): void {
    this.#house.failed(condition)
    this.#reopenLater()
  }

  #reopenLater(): void {
    this.#cancelReopen?.()
    if (this.#isClosed) return
    const waitMs = this.#parts.reopenEveryMs ?? reopenEveryMs
    this.#cancelReopen = this.#parts.timers.after(waitMs, () => void this.reopen())
  }

  async #reopen(): Promise<boolean> {
    const known = this.#known()
    if (known === null) return false
    await this.#live.scribe.stop()
    await this.#letGo()
    try {
      // Lanes of their own, so that a try that fails half-way has settled nothing.
      const lanes = new Lanes(known.lanes.save())
      const read = await readRoom(this.#parts, { ...known, lanes }, 'aRoom')
      this.#live = this.#serve(read)
      // Written before the failure and never answered for: it is on disk now, so it has happened.
      for (const frame of read.newFrames) this.#publish(frame)
    } catch (err) {
      this.#parts.log.warn({ room: this.id, err }, 'the room could not be opened anew')
      this.#reopenLater()
      return false
    }
    const opened = await this.record(openingTurn(this.#parts))
    if (opened.status === 'failed') {
      this.#reopenLater()
      return false
    }
    this.#house.writesAgain()
    return true
  }

  async #letGo(): Promise<void> {
    for (const file of [this.#live.journal, this.#live.privateFile]) {
      try {
        await file.close()
      } catch (err) {
        this.#parts.log.warn({ room: this.id, err }, 'a file could not be closed')
      }
    }
  }
}

/** The server serves the room from now on; with it civil time, where the machine's clock was set. */
export const openingTurn =
  ({ brain }: Pick<RoomParts, 'brain'>): ServerTurn =>
  (moment) => [
    ...brain.openingEvents(moment.board, moment.nowMs),
    ...civilTimeEvents(brain, moment),
  ]
