// An outbox that lives as long as its object: for simulated people, torture and bench, where a "reload"
// is a new session on the same object. Its calls settle by microtasks alone, so a deterministic
// simulation can drive it. Nothing a real feeder noted may stand here.

import { adoption } from '../session/adoption.ts'
import { contentsChanged, nothingYet } from '../session/outboxChange.ts'
import type {
  Noted,
  OutboxChange,
  OutboxContents,
  OutboxEntry,
  OutboxStore,
} from '../session/ports.ts'

export class MemoryOutbox implements OutboxStore {
  #contents: OutboxContents = { ...nothingYet, entries: [], stuck: [] }

  async load(): Promise<OutboxContents> {
    return this.#contents
  }

  async add(noted: Noted, insteadOf?: string): Promise<OutboxEntry> {
    const lastN = this.#contents.lastN + 1
    const entry: OutboxEntry = { ...noted, n: lastN, standing: { type: 'waiting' } }
    const removeStuck = insteadOf === undefined ? [] : [insteadOf]
    this.#contents = { ...contentsChanged(this.#contents, { put: [entry], removeStuck }), lastN }
    return entry
  }

  async write(change: OutboxChange): Promise<void> {
    this.#contents = contentsChanged(this.#contents, change)
  }

  async adopt(
    lane: string,
    laneN: number,
  ): Promise<OutboxContents & { readonly isRenumbered: boolean }> {
    const adopted = adoption(this.#contents, lane, laneN)
    if (adopted !== null) this.#contents = contentsChanged(this.#contents, adopted.change)
    return { ...this.#contents, isRenumbered: adopted?.isRenumbered ?? false }
  }
}
