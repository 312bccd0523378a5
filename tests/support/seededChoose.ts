// Chance for tests: the same seed gives the same choices for ever. And an odometer that, instead of
// drawing, walks through every combination of choices a piece of code asks for, one run each.

import type { Choose } from './fakeMedium.ts'

/** A 32-bit mixing counter, after Steele, Lea and Flood's SplitMix (OOPSLA 2014); from memory. */
export function seededChoose(seed: number): Choose {
  let state = seed | 0
  return (options) => {
    state = (state + 0x9e3779b9) | 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad)
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97)
    return ((mixed ^ (mixed >>> 15)) >>> 0) % options
  }
}

/**
 * Calls `run` once for every combination of the choices it makes, and returns how many there were.
 * `runsMax` ends a walk that would not end by itself; meeting it is an error, never a silent cut.
 */
export async function everyChoice(
  run: (choose: Choose) => Promise<void>,
  runsMax: number,
): Promise<number> {
  let path: { taken: number; options: number }[] = []
  for (let runs = 1; runs <= runsMax; runs += 1) {
    let at = 0
    await run((options) => {
      const step = path[at] ?? { taken: 0, options }
      path[at] = step
      at += 1
      return step.taken
    })
    path = path.slice(0, at)
    while (path.length > 0 && isSpent(path[path.length - 1])) path.pop()
    const last = path[path.length - 1]
    if (last === undefined) return runs
    last.taken += 1
  }
  throw new Error(`more than ${runsMax} combinations of choices`)
}

const isSpent = (step: { taken: number; options: number } | undefined): boolean =>
  step === undefined || step.taken + 1 >= step.options
