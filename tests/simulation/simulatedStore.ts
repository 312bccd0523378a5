// A device's outbox store as one page uses it: a real database takes a moment for every call, keeps the
// calls of all pages in one order, and may or may not have done what a page asked that is gone by then.

import type {
  Noted,
  OutboxChange,
  OutboxContents,
  OutboxEntry,
  OutboxStore,
} from '../../client/session/ports.ts'
import type { Chance } from './chance.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Faults } from './faultClasses.ts'

/** One line of calls for one device, over all its pages. */
export class StoreLine {
  readonly #queue: EventQueue
  #lastAtMs = 0

  constructor(queue: EventQueue) {
    this.#queue = queue
  }

  after(delayMs: number, run: () => void): void {
    this.#lastAtMs = Math.max(this.#lastAtMs, this.#queue.nowMs + delayMs)
    this.#queue.after(this.#lastAtMs - this.#queue.nowMs, 'store', run)
  }
}

export type StoreWorld = {
  readonly chance: Chance
  readonly faults: Faults
  readonly line: StoreLine
  /** Whether the page that asked is still there. */
  readonly isAlive: () => boolean
  readonly kept: (entry: OutboxEntry, insteadOf?: string) => void
  /** A call has had its effect, whoever still waits for it. */
  readonly changed: () => void
}

const callMs = { least: 1, most: 6 } as const
/** A database that fails does so for a while; a call in a few hundred is plenty for a day. */
const failingShare = 1 / 300

export class SimulatedStore implements OutboxStore {
  readonly #beneath: OutboxStore
  readonly #world: StoreWorld

  constructor(beneath: OutboxStore, world: StoreWorld) {
    this.#beneath = beneath
    this.#world = world
  }

  load(): Promise<OutboxContents> {
    return this.#call(() => this.#beneath.load())
  }

  add(noted: Noted, insteadOf?: string): Promise<OutboxEntry> {
    return this.#call(async () => {
      const entry = await this.#beneath.add(noted, insteadOf)
      this.#world.kept(entry, insteadOf)
      return entry
    })
  }

  write(change: OutboxChange): Promise<void> {
    return this.#call(() => this.#beneath.write(change))
  }

  adopt(lane: string, laneN: number): ReturnType<OutboxStore['adopt']> {
    return this.#call(() => this.#beneath.adopt(lane, laneN))
  }

  #call<T>(run: () => Promise<T>): Promise<T> {
    const { chance, line, isAlive, changed } = this.#world
    return new Promise((resolve, reject) => {
      line.after(chance.between(callMs.least, callMs.most), () => {
        if (this.#fails()) reject(new Error('the database is out of order'))
        else if (isAlive()) run().then(resolve, reject).then(changed)
        else if (chance.happens(0.5)) void run().then(changed)
      })
    })
  }

  #fails(): boolean {
    const { chance, faults } = this.#world
    if (!faults.isOn('failingStore') || !chance.happens(failingShare)) return false
    faults.injected('failingStore')
    return true
  }
}
