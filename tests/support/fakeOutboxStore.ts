// An outbox in memory that fails and hesitates when the test says so. A page reload is a new session on
// the same one; two tabs are two sessions on it.

import type {
  Noted,
  OutboxChange,
  OutboxContents,
  OutboxEntry,
  OutboxStore,
} from '../../client/session/ports.ts'
import { MemoryOutbox } from '../../client/stores/memoryOutbox.ts'

export type StoreCall = 'load' | 'add' | 'write' | 'adopt'

export class FakeOutboxStore implements OutboxStore {
  readonly #inner = new MemoryOutbox()
  readonly #failing = new Set<StoreCall>()
  #gate: Promise<void> = Promise.resolve()
  readonly calls: StoreCall[] = []

  /** These calls reject from now on; with none named, all of them work again. */
  fail(...calls: readonly StoreCall[]): void {
    this.#failing.clear()
    for (const call of calls) this.#failing.add(call)
  }

  /** Calls made from now on have their effect and answer when the returned function is called. */
  hold(): () => void {
    let release: () => void = () => undefined
    this.#gate = new Promise((resolve) => {
      release = resolve
    })
    return release
  }

  load(): Promise<OutboxContents> {
    return this.#call('load', () => this.#inner.load())
  }

  add(noted: Noted, insteadOf?: string): Promise<OutboxEntry> {
    return this.#call('add', () => this.#inner.add(noted, insteadOf))
  }

  write(change: OutboxChange): Promise<void> {
    return this.#call('write', () => this.#inner.write(change))
  }

  adopt(lane: string, laneN: number) {
    return this.#call('adopt', () => this.#inner.adopt(lane, laneN))
  }

  async #call<T>(call: StoreCall, run: () => Promise<T>): Promise<T> {
    this.calls.push(call)
    await this.#gate
    if (this.#failing.has(call)) throw new Error(`${call} failed`)
    return run()
  }
}
