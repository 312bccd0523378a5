// The room's clock never goes back and never jumps; what the wall clock does is a number beside it.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { RoomClock } from '../../../server/clock/roomClock.ts'
import { hourMs, minuteMs } from '../../../shared/base/values.ts'

const nine = Date.UTC(2026, 4, 23, 9)

/** A machine whose two clocks are moved by hand. */
function machine(wall = nine) {
  const at = { wallMs: wall, monotonicMs: 77.25 }
  return {
    at,
    pass(ms: number) {
      at.wallMs += ms
      at.monotonicMs += ms
    },
    clock: (lastRecordMs: number | null = null, speed = 1) =>
      new RoomClock({
        wallMs: () => at.wallMs,
        monotonicMs: () => at.monotonicMs,
        lastRecordMs,
        speed,
      }),
  }
}

describe('starting', () => {
  it('is at the wall clock in a new room, and after a night', () => {
    expect(machine().clock().nowMs()).toBe(nine)
    expect(
      machine()
        .clock(nine - 9 * hourMs)
        .nowMs(),
    ).toBe(nine)
  })

  it('is at the last record where the wall clock is behind it', () => {
    const clock = machine().clock(nine + hourMs)
    expect(clock.nowMs()).toBe(nine + hourMs)
    expect(clock.civilOffsetMs()).toBe(-hourMs)
    expect(clock.gapAtStartMs).toBeNull()
  })

  it('asks about a gap of more than ten minutes, and about nothing in a new room', () => {
    expect(machine().clock(nine - 10 * minuteMs).gapAtStartMs).toBeNull()
    expect(machine().clock(nine - 10 * minuteMs - 1).gapAtStartMs).toBe(10 * minuteMs + 1)
    expect(machine().clock().gapAtStartMs).toBeNull()
  })
})

describe('running', () => {
  it('goes with the monotonic clock, in whole milliseconds, times the speed', () => {
    for (const speed of [1, 10]) {
      const now = machine()
      const clock = now.clock(null, speed)
      now.pass(1_000.4)
      expect(clock.nowMs()).toBe(nine + Math.floor(1_000.4 * speed))
    }
  })

  it('stays where it is when the wall clock jumps, and tells by how much it did', () => {
    const now = machine()
    const clock = now.clock()
    now.pass(10 * minuteMs)
    now.at.wallMs -= hourMs
    expect([clock.nowMs(), clock.civilOffsetMs()]).toEqual([nine + 10 * minuteMs, -hourMs])
    now.at.wallMs += 3 * hourMs
    expect([clock.nowMs(), clock.civilOffsetMs()]).toEqual([nine + 10 * minuteMs, 2 * hourMs])
  })

  it('tells no jump because a demo runs fast', () => {
    const now = machine()
    const clock = now.clock(null, 60)
    now.pass(hourMs)
    expect(clock.civilOffsetMs()).toBe(0)
  })

  it('says how long a real clock takes to an instant, rounded up so that it is there then', () => {
    const now = machine()
    const clock = now.clock(null, 7)
    const delay = clock.realMsUntil(nine + 1_000)
    expect(delay).toBe(143)
    now.pass(delay)
    expect(clock.nowMs()).toBeGreaterThanOrEqual(nine + 1_000)
    expect(clock.realMsUntil(nine)).toBe(0)
  })

  it('never goes back, whatever both clocks of the machine do', () => {
    const move = fc.record({ wall: fc.integer(), monotonic: fc.double({ min: -10, max: 1e6 }) })
    fc.assert(
      fc.property(fc.array(move), fc.integer({ min: 1, max: 100 }), (moves, speed) => {
        const now = machine()
        const clock = now.clock(nine - hourMs, speed)
        let before = clock.nowMs()
        for (const { wall, monotonic } of moves) {
          now.at.wallMs += wall
          now.at.monotonicMs += monotonic || 0
          const after = clock.nowMs()
          expect(after).toBeGreaterThanOrEqual(before)
          expect(Number.isInteger(after)).toBe(true)
          before = after
        }
      }),
    )
  })
})
