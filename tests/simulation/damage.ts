// Bytes of a dead server's disk that change by themselves, and are mended again when the room has
// shown what it makes of them. Never the last record of a file: damage there cannot be told from a
// record that was torn, whoever reads it.

import { openSeal } from '../../server/disk/seal.ts'
import { readLine } from '../faults/journalOnDisk.ts'
import type { FakeDisk } from '../support/fakeDisk.ts'
import type { Chance } from './chance.ts'

type Spot = {
  readonly path: string
  readonly at: number
  readonly mask: number
  readonly damaged: number
}

export class Damage {
  readonly #chance: Chance
  #spots: readonly Spot[] = []

  constructor(chance: Chance) {
    this.#chance = chance
  }

  get files(): readonly string[] {
    return this.#spots.map(({ path }) => path)
  }

  /** Changes one byte somewhere; false where there is nothing old enough. */
  inflict(disk: FakeDisk): boolean {
    const places = [...disk.files]
      .map(([path, bytes]) => ({ path, bytes, length: oldLength(path, bytes) }))
      .filter(({ length }) => length > 0)
      .sort((a, b) => (a.path < b.path ? -1 : 1))
    if (places.length === 0) return false
    const { path, bytes, length } = this.#chance.oneOf(places)
    const at = this.#chance.below(length)
    const mask = 1 << this.#chance.below(8)
    const damaged = (bytes[at] ?? 0) ^ mask
    disk.rot(path, at, mask)
    this.#spots = [...this.#spots, { path, at, mask, damaged }]
    return true
  }

  /** Puts back what is still there as it was damaged. */
  mend(disk: FakeDisk): void {
    for (const { path, at, mask, damaged } of this.#spots) {
      if (disk.files.get(path)?.[at] === damaged) disk.rot(path, at, mask)
    }
    this.#spots = []
  }
}

/** How many bytes of a file lie before its last sound line; a cache may be damaged anywhere. */
function oldLength(path: string, bytes: Uint8Array): number {
  if (path.includes('.torn-') || path.endsWith('.aside')) return 0
  if (path.endsWith('.json')) return bytes.length
  const isJournal = path.endsWith('.journal')
  const isSound = (line: Buffer) => (isJournal ? readLine(line) : openSeal(line)) !== null
  let beforeLast = 0
  let at = 0
  for (let end = bytes.indexOf(10, at); end !== -1; end = bytes.indexOf(10, at)) {
    if (!isSound(Buffer.from(bytes.subarray(at, end)))) break
    beforeLast = at
    at = end + 1
  }
  return beforeLast
}
