// Things in a row, none over another, each as near its own place as the others let it: the isotonic
// least-squares fit of left edges. Order is never changed, so a bunch sits around its true time and
// touches. Pure sums; the strip's coming part asks.

export type Row = {
  /** The least left edge, and the greatest right one. */
  readonly from: number
  readonly to: number
  readonly gap: number
}
export type Wish = { readonly left: number; readonly width: number }

type Block = { readonly sum: number; readonly size: number }

/** The nondecreasing values nearest to `values` by squares: neighbours that clash share their mean. */
export function nondecreasing(values: readonly number[]): readonly number[] {
  const blocks: Block[] = []
  for (const value of values) {
    let block: Block = { sum: value, size: 1 }
    for (;;) {
      const last = blocks.at(-1)
      if (!last || last.sum / last.size <= block.sum / block.size) break
      blocks.pop()
      block = { sum: last.sum + block.sum, size: last.size + block.size }
    }
    blocks.push(block)
  }
  return blocks.flatMap(({ sum, size }) => Array.from({ length: size }, () => sum / size))
}

/**
 * Left edges for things that wish to stand somewhere, in the order given. The caller has seen to it
 * that together they fit between `from` and `to`.
 */
export function isotonicFit(wishes: readonly Wish[], row: Row): readonly number[] {
  // Taking away what stands before each turns "side by side" into "nondecreasing".
  let before = 0
  const offsets = wishes.map(({ width }) => {
    const offset = before
    before += width + row.gap
    return offset
  })
  const free = wishes.map(({ left }, at) => left - (offsets[at] ?? 0))
  const highest = row.to - (before - row.gap)
  // Bounds that are the same for all may be put on after the fit.
  return nondecreasing(free).map(
    (value, at) => Math.max(row.from, Math.min(highest, value)) + (offsets[at] ?? 0),
  )
}
