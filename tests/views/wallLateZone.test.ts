import { describe, expect, it } from 'vitest'
import { type LateZone, nextLateZone, stopFor } from '../../client/wall/lateZone.ts'
import { minuteMs } from '../../shared/base/values.ts'

const drawn = (needs: readonly (readonly [minute: number, needPx: number])[]): LateZone => {
  let zone: LateZone | null = null
  for (const [minute, needPx] of needs) zone = nextLateZone(zone, needPx, minute * minuteMs)
  if (!zone) throw new Error('a zone needs one drawing at least')
  return zone
}

describe('the late zone', () => {
  it('is the smallest of four widths that holds the fullest lane', () => {
    expect([0, 216, 217, 432, 599, 601, 760, 2_000].map(stopFor)).toEqual([
      216, 216, 432, 432, 600, 760, 760, 760,
    ])
  })

  it('widens at once', () => {
    expect(
      drawn([
        [0, 0],
        [1, 500],
      ]).stop,
    ).toBe(600)
  })

  it('does not narrow before five minutes of needing less', () => {
    expect(
      drawn([
        [0, 500],
        [1, 0],
        [5.9, 0],
      ]).stop,
    ).toBe(600)
    expect(
      drawn([
        [0, 500],
        [1, 0],
        [6, 0],
      ]).stop,
    ).toBe(216)
  })

  it('begins its five minutes anew when the width is needed again', () => {
    expect(
      drawn([
        [0, 500],
        [1, 0],
        [5, 500],
        [7, 0],
        [11.9, 0],
      ]).stop,
    ).toBe(600)
    expect(
      drawn([
        [0, 500],
        [1, 0],
        [5, 500],
        [7, 0],
        [12, 0],
      ]).stop,
    ).toBe(216)
  })

  it('narrows to the most that was needed in those minutes', () => {
    expect(
      drawn([
        [0, 700],
        [1, 0],
        [3, 300],
        [4, 0],
        [6, 0],
      ]).stop,
    ).toBe(432)
  })
})
