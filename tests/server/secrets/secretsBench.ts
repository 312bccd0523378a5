// A rooms folder with its secrets in it, on a disk in memory, with a clock moved by hand and a hasher
// that costs nothing and counts. `restart` cuts the power and opens what is on disk.

import type { PinHasher } from '../../../server/secrets/pinHasher.ts'
import type { RoomSecrets } from '../../../server/secrets/roomSecrets.ts'
import { openSecrets, type Secrets } from '../../../server/secrets/secrets.ts'
import { personId } from '../../../shared/board/parts.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { fixedChance } from '../../support/fixedChance.ts'
import { seededChoose } from '../../support/seededChoose.ts'

export const path = '/rooms/secrets.json'
export const ana = personId.parse('p1')
export const ben = personId.parse('p2')
export const wrong = { type: 'wrong' }
export const right = { type: 'right' }
export const locked = (waitMs: number) => ({ type: 'locked', waitMs })

export class SecretsBench {
  nowMs = Date.UTC(2026, 4, 23, 9)
  /** How many hashes were made, and how many at once. */
  readonly hashing = { running: 0, most: 0, count: 0 }
  disk = new FakeDisk({ choose: seededChoose(8) })
  #secrets: Secrets | null = null
  #starts = 0

  static async open(): Promise<SecretsBench> {
    const bench = new SecretsBench()
    await bench.disk.makeDir('/rooms')
    await bench.reopen()
    return bench
  }

  get room(): RoomSecrets {
    return this.ofRoom('nursery')
  }

  ofRoom(room: string): RoomSecrets {
    if (this.#secrets === null) throw new Error('the bench was not opened')
    return this.#secrets.ofRoom(room)
  }

  /** Each start has other randomness, as in life. */
  async reopen(): Promise<void> {
    this.#starts += 1
    this.#secrets = await openSecrets({
      disk: this.disk,
      path,
      nowMs: () => this.nowMs,
      chance: fixedChance(this.#starts),
      hasher: this.#hasher,
    })
  }

  async restart(): Promise<void> {
    this.disk = this.disk.crash()
    await this.reopen()
  }

  async device(): Promise<string> {
    const paired = await this.room.pairDevice()
    if (paired === null) throw new Error('the room is full')
    return paired.device
  }

  readonly #hasher: PinHasher = async (secret, salt) => {
    this.hashing.count += 1
    this.hashing.running += 1
    this.hashing.most = Math.max(this.hashing.most, this.hashing.running)
    await Promise.resolve()
    this.hashing.running -= 1
    return Uint8Array.from({ length: 32 }, (_, at) => (secret[at] ?? 0) ^ (salt[at % 16] ?? 0))
  }
}
