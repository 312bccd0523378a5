// One file that only grows, and what it means when growing fails: after the first failed write or
// sync nothing more is taken, ever, since the machine may call lost bytes clean and a second sync
// would then say "done" of what is gone. Opening anew, from what can be read, is the only way on.

import { assert } from '../../shared/base/control.ts'
import type { Disk, OpenFile } from './disk.ts'
import { writeAll } from './durable.ts'

/** The world broke under a write; `cause` is what the disk said. The same one at each later try. */
export class WriteFailed extends Error {
  constructor(path: string, cause: unknown) {
    super(`${path} takes no more records: ${cause instanceof Error ? cause.message : cause}`, {
      cause,
    })
    this.name = 'WriteFailed'
  }
}

export class Appender {
  readonly path: string
  readonly #file: OpenFile
  #failure: WriteFailed | null = null
  #isBusy = false

  private constructor(path: string, file: OpenFile) {
    this.path = path
    this.#file = file
  }

  /** The file's name is durable only if it was so before, or its folder is synced after this. */
  static async open(disk: Disk, path: string): Promise<Appender> {
    return new Appender(path, await disk.openAppend(path))
  }

  /** Null while all is well. */
  get failure(): WriteFailed | null {
    return this.#failure
  }

  /** One write and one sync; durable once it returns. One at a time. Throws `WriteFailed`. */
  async append(bytes: Uint8Array): Promise<void> {
    if (this.#failure !== null) throw this.#failure
    assert(!this.#isBusy, `one append at a time to ${this.path}`)
    this.#isBusy = true
    try {
      await writeAll(this.#file, bytes)
      await this.#file.sync()
    } catch (error) {
      this.#failure = new WriteFailed(this.path, error)
      throw this.#failure
    } finally {
      this.#isBusy = false
    }
  }

  async close(): Promise<void> {
    await this.#file.close()
  }
}
