// lowdb over our disk: one small file of JSON, kept in memory, written aside and renamed, sealed with
// a checksum. lowdb's own writers never sync and keep only the newest waiting write, so only its core
// is used. For what is read whole and changed rarely: secrets, settings, snapshots.

import { type Adapter, Low } from 'lowdb'
import { DamagedFile } from './damage.ts'
import type { Disk } from './disk.ts'
import { replaceFile } from './durable.ts'
import { openSeal, seal } from './seal.ts'

/** A JSON object with at least one field; `parse` throws on any other shape. */
export interface LowPlace<T extends object> {
  readonly disk: Disk
  readonly path: string
  readonly parse: (raw: unknown) => T
}

/** The file, or null where there is none. Throws `DamagedFile` where it is not whole or not known. */
export function sealedAdapter<T extends object>({ disk, path, parse }: LowPlace<T>): Adapter<T> {
  return {
    read: async () => {
      const bytes = await disk.read(path)
      return bytes === null ? null : parsed(path, bytes, parse)
    },
    write: (data) => replaceFile(disk, path, Buffer.from(`${seal(JSON.stringify(data))}\n`)),
  }
}

function parsed<T>(path: string, bytes: Uint8Array, parse: (raw: unknown) => T): T {
  const text = openSeal(bytes.at(-1) === 0x0a ? bytes.subarray(0, -1) : bytes)
  if (text === null) throw new DamagedFile(path, null, 'badSeal', 'the file is damaged')
  try {
    return parse(JSON.parse(text.toString()))
  } catch (cause) {
    const unknown = new DamagedFile(path, null, 'unknownFormat', 'a newer program wrote the file')
    throw Object.assign(unknown, { cause })
  }
}

/** More changes than these waiting for the disk means it stands still; whoever asks must hear it. */
export const changesWaitingMax = 200

/** A value that is on disk whenever it can be seen. */
export class DurableLow<T extends object> {
  readonly #low: Low<T>
  #durable: T
  #turn: Promise<unknown> = Promise.resolve()
  #waiting = 0

  constructor(low: Low<T>) {
    this.#low = low
    this.#durable = low.data
  }

  /** The last value that is durable. */
  get data(): T {
    return this.#durable
  }

  /**
   * Replaces the value by what `next` makes of it, and answers once that is durable. Changes take
   * their turns. Where the disk fails, this throws what it said and the value stays as it was.
   */
  async change(next: (data: T) => T): Promise<T> {
    if (this.#waiting >= changesWaitingMax) throw new Error('too many changes wait for the disk')
    this.#waiting += 1
    const mine = this.#turn.then(() => this.#apply(next))
    // The next in turn goes ahead either way; whether this one failed is for its caller alone.
    this.#turn = mine.then(
      () => undefined,
      () => undefined,
    )
    try {
      return await mine
    } finally {
      this.#waiting -= 1
    }
  }

  async #apply(next: (data: T) => T): Promise<T> {
    const wanted = next(this.#durable)
    if (wanted === this.#durable) return wanted
    this.#low.data = wanted
    await this.#low.write()
    this.#durable = wanted
    return wanted
  }
}

/** Reads the file; where there is none, the value is `defaults`, and nothing is written yet. */
export async function durableLow<T extends object>(
  place: LowPlace<T>,
  defaults: T,
): Promise<DurableLow<T>> {
  const low = new Low<T>(sealedAdapter(place), defaults)
  await low.read()
  return new DurableLow(low)
}
