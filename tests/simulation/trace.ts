// What happened in a simulated world, as one number over all of it and the last lines in words. Two
// runs of one seed must give the same number; the lines are for whoever looks at a violation.

import { hashText } from '../../shared/base/hash.ts'

/** Enough to see what led to a violation; the whole of a day would be a million lines. */
const tailMax = 400

type Line = { readonly atMs: number; readonly what: string; readonly detail: string }

export class Trace {
  #high = 0x6a09e667
  #low = 0xbb67ae85
  readonly #tail: Line[] = []
  #count = 0

  /** One thing that happened; time, kind and content all count. */
  add(atMs: number, what: string, detail: string): void {
    this.#mix(atMs % 0x1_0000_0000)
    this.#mix(hashOf(what))
    this.#mix(hashOf(detail))
    this.#tail[this.#count % tailMax] = { atMs, what, detail }
    this.#count += 1
  }

  get hash(): string {
    const hex = (word: number) => (word >>> 0).toString(16).padStart(8, '0')
    return `${hex(this.#high)}${hex(this.#low)}`
  }

  /** The last lines, earliest first, as a person would read them. */
  tail(lines: number): readonly string[] {
    const last = Math.min(lines, this.#count, tailMax)
    return Array.from({ length: last }, (_, place) => {
      const line = this.#tail[(this.#count - last + place) % tailMax]
      return line === undefined ? '' : inWords(line)
    })
  }

  #mix(word: number): void {
    this.#high = Math.imul(this.#high ^ word, 0xc2b2ae35)
    this.#low = Math.imul(this.#low ^ (this.#high >>> 15) ^ word, 0x27d4eb2f)
  }
}

const inWords = ({ atMs, what, detail }: Line): string =>
  `${new Date(atMs).toISOString().slice(5, 23)} ${what} ${detail.slice(0, 400)}`

/** The same text goes to every screen of a room, so its hash is kept from one to the next. */
const recent = new Map<string, number>()
const recentMax = 64

export function hashOf(text: string): number {
  const known = recent.get(text)
  if (known !== undefined) return known
  const hash = hashText(text) % 0x1_0000_0000
  if (recent.size >= recentMax) recent.clear()
  recent.set(text, hash)
  return hash
}

/** One number for many runs, in their order. */
export const hashOfAll = (hashes: readonly string[]): string =>
  hashText(hashes.join(' ')).toString(16).padStart(14, '0')
