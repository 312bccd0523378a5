import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { clockTime } from '../../client/ui/clock.ts'
import { fitLane, lane, type Shown, sizes } from '../../client/wall/fit.ts'
import { tokenWidth } from '../../client/wall/measure.ts'
import { type Token, tokenOf } from '../../client/wall/tokens.ts'
import type { Board } from '../../shared/board/state.ts'
import { wallView } from '../../shared/views/wallView.ts'
import { busyRoom, calmRoom, jammedRoom, names, nowMs, wideRoom } from '../support/boards.ts'

/** Wider than the page's own font on average, so that what fits here fits there. */
const widthOf = (text: string, { px }: { px: number }) => text.length * px * 0.56
const laneWidthPx = 1_742

function lanesOf(board: Board) {
  const view = wallView(board, names, nowMs)
  const size = sizes(view.lanes.length)
  const width = (shown: Shown) => tokenWidth(shown, size, widthOf)
  return view.lanes.map(({ nests }) => {
    const tokens = nests.map((nest) => tokenOf(nest, (ms) => clockTime(board.room, ms), nowMs))
    return { tokens, width, fitted: fitLane(tokens, laneWidthPx, width) }
  })
}

const widthTogether = (shown: readonly Shown[], width: (one: Shown) => number) =>
  shown.reduce((sum, one) => sum + width(one) + lane.gap, 0)

describe.each([
  ['calm, 24 nests', calmRoom],
  ['behind, 60 nests', busyRoom],
  ['jammed, 60 nests', jammedRoom],
  ['of fourteen incubators, 84 nests', wideRoom],
])('a lane of a room %s', (_, board) => {
  it('never says more than fits beside its count', () => {
    for (const { fitted, width } of lanesOf(board)) {
      const room = fitted.rest > 0 ? laneWidthPx - lane.count : laneWidthPx
      expect(widthTogether(fitted.shown, width)).toBeLessThanOrEqual(room)
    }
  })

  it('shows or counts every nest', () => {
    for (const { tokens, fitted } of lanesOf(board)) {
      expect(fitted.shown.length + fitted.rest).toBe(tokens.length)
    }
  })

  it('shows the latest nest with its minutes', () => {
    for (const { tokens, fitted } of lanesOf(board)) {
      const [first] = tokens
      if (first?.kind !== 'late' && first?.kind !== 'veryLate') continue
      expect(fitted.shown[0]?.token).toBe(first)
      expect(fitted.shown[0]?.form.detail).toMatch(/^\d+/)
    }
  })

  it('keeps the mark of every doubt it shows', () => {
    for (const { fitted } of lanesOf(board)) {
      for (const { token, form } of fitted.shown) {
        expect(form.doubt === null).toBe(token.forms[0].doubt === null)
      }
    }
  })
})

describe('words that are given up', () => {
  const form = (worth: number) => ({ detail: 'words', doubt: null, worth })
  const token = (label: string, kind: Token['kind'], worths: readonly [number, ...number[]]) => ({
    nest: label as Token['nest'],
    label,
    shown: label,
    kind,
    forms: worths.map(form) as unknown as Token['forms'],
  })

  it('are the cheapest first, from the right where they are worth the same', () => {
    const tokens = [
      token('A', 'late', [2, 0]),
      token('B', 'later', [1, 0]),
      token('C', 'later', [1, 0]),
    ]
    // Every form left in takes one unit off; a width of 3 units minus gaps asks for one step.
    const width = ({ form: { worth } }: Shown) => (worth > 0 ? 100 : 50)
    const { shown } = fitLane(tokens, 3 * 100 + 3 * lane.gap - 1, width)
    expect(shown.map(({ form: { worth } }) => worth)).toEqual([2, 1, 0])
  })

  it('leave only later nests to be counted, never the first', () => {
    const tokens = [token('A', 'late', [0]), token('B', 'later', [0]), token('C', 'claimed', [0])]
    const { shown, rest } = fitLane(tokens, 2 * (100 + lane.gap) + lane.count, () => 100)
    expect(shown.map(({ token: { label } }) => label)).toEqual(['A', 'C'])
    expect(rest).toBe(1)
  })

  it('end: any tokens in any width leave at least one shown', () => {
    const kinds = ['late', 'due', 'claimed', 'later', 'held'] as const
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...kinds), fc.nat(9)), { minLength: 1, maxLength: 12 }),
        fc.nat(2_000),
        (likes, widthPx) => {
          const tokens = likes.map(([kind, worth], at) => token(`N${at}`, kind, [worth, 0]))
          const { shown, rest } = fitLane(tokens, widthPx, ({ form: { worth } }) => 90 + worth)
          expect(shown.length).toBeGreaterThan(0)
          expect(shown.length + rest).toBe(tokens.length)
        },
      ),
    )
  })
})

describe('the sizes of type', () => {
  // A capital of this font is 0.69 em, measured in the rendered page; 47 px is 20 minutes of arc at 4 m.
  it('keep capitals at 47 px or more up to ten lanes', () => {
    for (let lanes = 1; lanes <= 10; lanes += 1) {
      expect(sizes(lanes).label * 0.69).toBeGreaterThanOrEqual(47)
      expect(sizes(lanes).detail * 0.69).toBeGreaterThanOrEqual(47)
    }
  })
})
