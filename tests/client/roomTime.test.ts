// The room's clock as a device carries it on between two words of the server.

import { describe, expect, it } from 'vitest'
import { RoomTime } from '../../client/session/roomTime.ts'
import { FakeTimers } from '../support/fakeTimers.ts'
import { roomMs } from './device.ts'

const begun = (speed = 1) => {
  const timers = new FakeTimers()
  const time = new RoomTime(timers)
  time.welcomed(roomMs, speed)
  return { timers, time }
}

describe('the room clock on a device', () => {
  it('is not known before anything was heard', () => {
    const time = new RoomTime(new FakeTimers())
    expect(time.nowMs()).toBeNull()
    expect(time.lastHeardMs()).toBeNull()
  })

  it('goes on from what was last heard, by the monotonic clock', async () => {
    const { timers, time } = begun()
    await timers.pass(7_000)
    expect(time.nowMs()).toBe(roomMs + 7_000)
  })

  it('runs as fast as the room does', async () => {
    const { timers, time } = begun(10)
    await timers.pass(7_000)
    expect(time.nowMs()).toBe(roomMs + 70_000)
  })

  it('does not follow the wall clock of the device', async () => {
    const { timers, time } = begun()
    timers.setWall(0)
    await timers.pass(1_000)
    expect(time.nowMs()).toBe(roomMs + 1_000)
  })

  it('stands still, rather than jerk back, when a beat comes a little late', async () => {
    const { timers, time } = begun()
    await timers.pass(2_000)
    expect(time.nowMs()).toBe(roomMs + 2_000)
    time.heard(roomMs + 1_700)
    expect(time.nowMs()).toBe(roomMs + 2_000)
    await timers.pass(500)
    expect(time.nowMs()).toBe(roomMs + 2_200)
  })

  it('follows the server back where the difference is more than a late frame', async () => {
    const { timers, time } = begun()
    await timers.pass(60_000)
    expect(time.nowMs()).toBe(roomMs + 60_000)
    time.heard(roomMs + 10_000)
    expect(time.nowMs()).toBe(roomMs + 10_000)
  })

  it('learns nothing from a beat that another has overtaken', async () => {
    const { timers, time } = begun()
    await timers.pass(4_000)
    time.heard(roomMs + 4_000)
    time.heard(roomMs + 2_000)
    expect(time.lastHeardMs()).toBe(roomMs + 4_000)
  })

  it('does not go back when the monotonic clock does', async () => {
    const { timers, time } = begun()
    await timers.pass(1_000)
    expect(time.nowMs()).toBe(roomMs + 1_000)
    timers.turnBack(5_000)
    expect(time.nowMs()).toBe(roomMs + 1_000)
  })

  it('says what was last heard before a moment that has passed', async () => {
    const { timers, time } = begun()
    await timers.pass(2_000)
    time.heard(roomMs + 2_000)
    await timers.pass(1_000)
    const startedMonoMs = timers.nowMs()
    await timers.pass(1_000)
    time.heard(roomMs + 4_000)
    expect(time.heardBefore(startedMonoMs)).toBe(roomMs + 2_000)
    expect(time.heardBefore(timers.nowMs())).toBe(roomMs + 4_000)
    expect(time.heardBefore(0)).toBeNull()
  })

  it('forgets what was heard of a room whose clock has been put back', async () => {
    const { timers, time } = begun()
    await timers.pass(1_000)
    time.welcomed(roomMs - 50_000, 1)
    expect(time.nowMs()).toBe(roomMs - 50_000)
    expect(time.heardBefore(timers.nowMs() - 500)).toBeNull()
  })
})
