// The real timers and the real randomness do what their ports say.

import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { realChance } from '../../../server/clock/chance.ts'
import { realTimers, waitMaxMs } from '../../../server/clock/timers.ts'

beforeEach(() => {
  vi.useFakeTimers()
})
afterEach(() => {
  vi.useRealTimers()
})

it('calls once, after the delay and not before', () => {
  const run = vi.fn()
  realTimers.after(50, run)
  vi.advanceTimersByTime(49)
  expect(run).not.toHaveBeenCalled()
  vi.advanceTimersByTime(1_000)
  expect(run).toHaveBeenCalledOnce()
})

it('does not call when it was taken back', () => {
  const run = vi.fn()
  realTimers.after(50, run)()
  vi.advanceTimersByTime(1_000)
  expect(run).not.toHaveBeenCalled()
})

it('waits a day at most, and never takes a long wait for none', () => {
  const run = vi.fn()
  realTimers.after(2 ** 31, run)
  vi.advanceTimersByTime(waitMaxMs - 1)
  expect(run).not.toHaveBeenCalled()
  vi.advanceTimersByTime(1)
  expect(run).toHaveBeenCalledOnce()
})

it('gives as many bytes as asked for, and others each time', () => {
  expect(realChance.bytes(16).length).toBe(16)
  expect(realChance.bytes(16)).not.toEqual(realChance.bytes(16))
})
