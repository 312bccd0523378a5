// All chance of a simulated world, from one seed. Every draw moves the one generator on, so a run is
// told apart by its seed alone; nothing here or near it may ask the machine for chance or time.

export class Chance {
  #a: number
  #b: number
  #c: number
  #counter = 1

  /** A small fast counting generator with 128 bits of state, after Doty-Humphrey's sfc32; from memory. */
  constructor(seed: number) {
    this.#a = seed | 0
    this.#b = 0x9e3779b9 | 0
    this.#c = 0x243f6a88 | 0
    for (let round = 0; round < 15; round += 1) this.#next()
  }

  #next(): number {
    const sum = (((this.#a + this.#b) | 0) + this.#counter) | 0
    this.#counter = (this.#counter + 1) | 0
    this.#a = this.#b ^ (this.#b >>> 9)
    this.#b = (this.#c + (this.#c << 3)) | 0
    this.#c = ((this.#c << 21) | (this.#c >>> 11)) + sum
    this.#c |= 0
    return sum >>> 0
  }

  /** From 0 up to, not including, 1. */
  readonly share = (): number => this.#next() / 0x1_0000_0000

  /** A whole number from 0 up to, not including, `options`. */
  readonly below = (options: number): number => Math.floor(this.share() * options)

  /** A whole number between two, both included. */
  between(least: number, most: number): number {
    return least + this.below(most - least + 1)
  }

  /** True in this share of the draws. */
  happens(share: number): boolean {
    return this.share() < share
  }

  /** One of them; throws when there is none. */
  oneOf<T>(among: readonly T[]): T {
    const one = among[this.below(among.length)]
    if (one === undefined) throw new Error('nothing to choose from')
    return one
  }
}
