// Chance that can be told again: the same seed gives the same draws. Enough for invented people; nothing
// that must be hard to guess is drawn from it.

export type Draw = {
  /** From 0 up to, not including, 1. */
  readonly share: () => number
  /** From `least` up to, not including, `most`. */
  readonly between: (least: number, most: number) => number
  /** True once in so many times. */
  readonly oneIn: (n: number) => boolean
}

/** A counter stepped by the golden ratio and mixed, after SplitMix (Steele, Lea, Flood 2014; from memory). */
export function drawFrom(seed: number): Draw {
  let state = seed | 0
  const share = () => {
    state = (state + 0x9e3779b9) | 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad)
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97)
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32
  }
  return {
    share,
    between: (least, most) => least + share() * (most - least),
    oneIn: (n) => share() < 1 / n,
  }
}
