// The disk one process of a simulated server works on. Beneath it is the fake disk with its cache; here
// stands what takes time, what fails and where the process may die, decided for each call and its path.

import type { Disk, OpenFile } from '../../server/disk/disk.ts'
import type { DiskCall, DiskErrorCode, FakeDisk } from '../support/fakeDisk.ts'
import type { EventQueue } from './eventQueue.ts'

/** What the world decides of each call before it is made. */
export interface DiskFate {
  /** Calls that have not returned. */
  pending: number
  /** False when the process is gone, perhaps just now: the call is not made and never returns. */
  lives(call: DiskCall, path: string): boolean
  delayMs(call: DiskCall, path: string): number
  failure(call: DiskCall, path: string): DiskErrorCode | null
  /** The process has been told that this call failed. */
  failed(call: DiskCall, path: string): void
}

export class SimulatedDisk implements Disk {
  readonly #beneath: FakeDisk
  readonly #queue: EventQueue
  readonly #fate: DiskFate

  constructor(beneath: FakeDisk, queue: EventQueue, fate: DiskFate) {
    this.#beneath = beneath
    this.#queue = queue
    this.#fate = fate
  }

  list(dir: string): Promise<readonly string[]> {
    return this.#pass('list', dir, () => this.#beneath.list(dir))
  }

  read(path: string): Promise<Uint8Array | null> {
    return this.#pass('read', path, () => this.#beneath.read(path))
  }

  async openAppend(path: string): Promise<OpenFile> {
    const file = await this.#pass('openAppend', path, () => this.#beneath.openAppend(path))
    return {
      write: (bytes) => this.#pass('write', path, () => file.write(bytes)),
      sync: () => this.#pass('sync', path, () => file.sync()),
      close: () => this.#pass('close', path, () => file.close()),
    }
  }

  rename(from: string, to: string): Promise<void> {
    return this.#pass('rename', to, () => this.#beneath.rename(from, to))
  }

  remove(path: string): Promise<void> {
    return this.#pass('remove', path, () => this.#beneath.remove(path))
  }

  makeDir(dir: string): Promise<void> {
    return this.#pass('makeDir', dir, () => this.#beneath.makeDir(dir))
  }

  syncDir(dir: string): Promise<void> {
    return this.#pass('syncDir', dir, () => this.#beneath.syncDir(dir))
  }

  async #pass<T>(call: DiskCall, path: string, run: () => Promise<T>): Promise<T> {
    this.#fate.pending += 1
    try {
      return await this.#made(call, path, run)
    } finally {
      this.#fate.pending -= 1
    }
  }

  async #made<T>(call: DiskCall, path: string, run: () => Promise<T>): Promise<T> {
    await this.#stillLives(call, path)
    const delayMs = this.#fate.delayMs(call, path)
    if (delayMs > 0) {
      await new Promise<void>((resolve) => {
        this.#queue.after(delayMs, `disk ${call}`, resolve)
      })
      await this.#stillLives(call, path)
    }
    const code = this.#fate.failure(call, path)
    if (code !== null) this.#beneath.failNth(call, 1, code)
    try {
      return await run()
    } catch (error) {
      this.#fate.failed(call, path)
      throw error
    }
  }

  async #stillLives(call: DiskCall, path: string): Promise<void> {
    if (!this.#fate.lives(call, path)) await new Promise<never>(() => undefined)
  }
}
