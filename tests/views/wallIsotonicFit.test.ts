import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isotonicFit, nondecreasing, type Wish } from '../../client/wall/isotonicFit.ts'

const row = { from: 0, to: 1_000, gap: 6 }
const distance = (wishes: readonly Wish[], lefts: readonly number[]) =>
  wishes.reduce((sum, { left }, at) => sum + (left - (lefts[at] ?? 0)) ** 2, 0)

/** A row that fits: at most eight things of at most 100 px in 1000. */
const rows = fc.array(
  fc.record({
    left: fc.double({ min: -200, max: 1_200, noNaN: true }),
    width: fc.double({ min: 20, max: 100, noNaN: true }),
  }),
  { minLength: 1, maxLength: 8 },
)

/** Left edges by another way: the formula of the greatest least mean, place by place. */
function byMeans(wishes: readonly Wish[]): readonly number[] {
  const offsets = wishes.map((_, at) =>
    wishes.slice(0, at).reduce((sum, { width }) => sum + width + row.gap, 0),
  )
  const end = (offsets.at(-1) ?? 0) + (wishes.at(-1)?.width ?? 0)
  const free = wishes.map(({ left }, at) => left - (offsets[at] ?? 0))
  // The least-squares nondecreasing value at a place: the greatest least mean of the runs around it.
  const mean = (from: number, to: number) =>
    free.slice(from, to + 1).reduce((sum, one) => sum + one, 0) / (to - from + 1)
  return free.map((_, at) => {
    const value = Math.max(
      ...free
        .slice(0, at + 1)
        .map((_from, from) =>
          Math.min(...free.slice(at).map((_to, more) => mean(from, at + more))),
        ),
    )
    return Math.min(row.to - end, Math.max(row.from, value)) + (offsets[at] ?? 0)
  })
}

describe('things in a row', () => {
  it('stay where they wish while none is over another', () => {
    const wishes = [
      { left: 10, width: 50 },
      { left: 100, width: 50 },
      { left: 400, width: 80 },
    ]
    expect(isotonicFit(wishes, row)).toEqual([10, 100, 400])
  })

  it('that wish the same place stand around it and touch', () => {
    const wishes = [
      { left: 300, width: 94 },
      { left: 300, width: 94 },
      { left: 300, width: 94 },
    ]
    expect(isotonicFit(wishes, row)).toEqual([200, 300, 400])
  })

  it('do not cross the line on the left, nor the end on the right', () => {
    const wishes = [
      { left: -50, width: 94 },
      { left: -40, width: 94 },
      { left: 990, width: 94 },
    ]
    expect(isotonicFit(wishes, row)).toEqual([0, 100, 906])
  })

  it('keep their order and their gaps, whatever they wish', () => {
    fc.assert(
      fc.property(rows, (wishes) => {
        const lefts = isotonicFit(wishes, row)
        for (const [at, left] of lefts.entries()) {
          const before = at === 0 ? row.from : (lefts[at - 1] ?? 0) + (wishes[at - 1]?.width ?? 0)
          expect(left).toBeGreaterThanOrEqual(before + (at === 0 ? 0 : row.gap) - 1e-6)
          expect(left + (wishes[at]?.width ?? 0)).toBeLessThanOrEqual(row.to + 1e-6)
        }
      }),
    )
  })

  it('are moved as little as can be, by squares: the sum found another way is no smaller', () => {
    fc.assert(
      fc.property(rows, (wishes) => {
        const ours = distance(wishes, isotonicFit(wishes, row))
        expect(ours).toBeCloseTo(distance(wishes, byMeans(wishes)), 3)
      }),
    )
  })

  it('find no better place by any small move that is allowed', () => {
    fc.assert(
      fc.property(rows, fc.nat(7), fc.constantFrom(-1, 1), (wishes, from, sign) => {
        const lefts = isotonicFit(wishes, row)
        // A whole bunch may move together: everything from one place on that touches.
        const moved = lefts.map((left, at) => (at >= from ? left + sign * 0.5 : left))
        const isAllowed = moved.every((left, at) => {
          const before =
            at === 0 ? row.from - row.gap : (moved[at - 1] ?? 0) + (wishes[at - 1]?.width ?? 0)
          return left >= before + row.gap && left + (wishes[at]?.width ?? 0) <= row.to
        })
        if (!isAllowed) return
        expect(distance(wishes, moved)).toBeGreaterThanOrEqual(distance(wishes, lefts) - 1e-6)
      }),
    )
  })
})

describe('the nondecreasing fit', () => {
  it('shares a mean among neighbours that clash, and leaves the others', () => {
    expect(nondecreasing([1, 5, 3, 4, 9])).toEqual([1, 4, 4, 4, 9])
  })
})
