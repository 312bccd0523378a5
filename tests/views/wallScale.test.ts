import { describe, expect, it } from 'vitest'
import { frameOf } from '../../client/wall/frame.ts'
import { scaleRow } from '../../client/wall/scaleRow.ts'
import { minuteMs } from '../../shared/base/values.ts'
import type { Hours } from '../../shared/views/hours.ts'
import { nowMs, time, widthOf } from './wallRooms.ts'

const wholeMs = nowMs - (nowMs % minuteMs)
function rowOf(hours: Hours, lateStop = 216, atMs = wholeMs) {
  const opensAgainAtMs = wholeMs + 600 * minuteMs
  return scaleRow(frameOf(6, 'calm', lateStop), {
    nowMs: atMs,
    hours,
    opensAgainAtMs,
    time,
    widthOf,
  })
}
const closing = (minutes: number): Hours => ({
  type: 'open',
  closesAtMs: wholeMs + minutes * minuteMs,
})
const always: Hours = { type: 'alwaysOpen' }

describe('the row of times', () => {
  it('stands at round tens of minutes, 36 px a minute from the line', () => {
    expect(rowOf(always).ticks).toMatchObject([
      { x: 6 * 36, text: '09:30' },
      { x: 16 * 36, text: '09:40' },
      // A line without its time: "later" stands there.
      { x: 26 * 36, text: null },
    ])
    expect(rowOf(always).end).toBe('later')
  })

  it('drifts to the left with the minutes', () => {
    const [first] = rowOf(always, 216, wholeMs + 2.5 * minuteMs).ticks
    expect(first).toMatchObject({ x: 3.5 * 36 })
  })

  it('says no time over the line', () => {
    const [first] = rowOf(always, 216, wholeMs + 5 * minuteMs).ticks
    expect(first).toMatchObject({ x: 36, text: null })
  })

  it('ends at lights out, with its time and until when the room sleeps', () => {
    const { ticks, end } = rowOf(closing(7))
    expect(ticks.map(({ text }) => text)).toEqual([null, '09:31'])
    expect(end).toBe('asleep until 19:24')
  })

  it('rather says the time of lights out than all of the morning', () => {
    const { ticks, end } = rowOf(closing(14))
    expect(ticks.at(-1)).toMatchObject({ text: '09:38' })
    expect(end).toBe('until 19:24')
  })

  it('knows nothing of lights out while that lies beyond the window', () => {
    expect(rowOf(closing(29)).end).toBe('later')
    expect(rowOf(closing(25), 760).end).toBe('later')
  })

  it('has no times while the room is closed', () => {
    const { ticks, end } = rowOf({ type: 'closed', opensAtMs: wholeMs + 600 * minuteMs })
    expect(ticks).toEqual([])
    expect(end).toBe('asleep until 19:24')
  })
})
