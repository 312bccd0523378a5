// How old a report is, told anew at every sending, and how early it may at most have been: by the
// monotonic clock while the page lives, by the wall clock after a reload.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers } from '../support/fakeTimers.ts'
import { ana, calledAway, Device, roomMs, started } from './device.ts'

describe('how old a report is', () => {
  it('is told by the monotonic clock within one page life', async () => {
    const device = await new Device().live()
    device.link.say({ type: 'beat', nowMs: roomMs + 500, version: 3, house: [] })
    const startedMonoMs = device.session.monoNowMs()
    await device.beats(2)
    await device.session.report(ana, calledAway, { startedMonoMs })
    device.timers.setWall(0)
    await device.timers.pass(4_999)
    await device.beats(1)
    expect(device.link.commands().map(({ timing }) => timing)).toEqual([
      { notedAgoMs: 0, startedAgoMs: 4_000, heardAtMs: roomMs + 500 },
      { notedAgoMs: 5_000, startedAgoMs: 9_000, heardAtMs: roomMs + 500 },
    ])
  })

  it('has no start after the note, whatever the caller says', async () => {
    const device = await new Device().live()
    const startedMonoMs = device.session.monoNowMs() + 60_000
    await device.session.report(ana, calledAway, { startedMonoMs })
    await device.timers.pass(4_999)
    await device.beats(1)
    const { notedAgoMs, startedAgoMs } = device.link.lastCommand().timing
    expect([notedAgoMs, startedAgoMs]).toEqual([5_000, 5_000])
  })

  it('is told by the wall clock after a reload', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live()
    const startedMonoMs = before.session.monoNowMs()
    await before.timers.pass(2 * minuteMs)
    await before.session.report(ana, calledAway, { startedMonoMs })
    const wallMs = before.timers.wallMs()
    before.session.stop()
    const timers = new FakeTimers(99, wallMs + 60_000)
    const after = await new Device({ store, timers }).live()
    expect(after.link.lastCommand().timing).toEqual({
      notedAgoMs: 60_000,
      startedAgoMs: 3 * minuteMs,
      heardAtMs: roomMs,
    })
  })

  it('is never less than nothing, whatever a clock was set back to', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live()
    const startedMonoMs = before.session.monoNowMs()
    await before.timers.pass(4_000)
    before.link.cut()
    await before.session.report(ana, calledAway, { startedMonoMs })
    before.session.stop()
    const timers = new FakeTimers(99, before.timers.wallMs() - 3_600_000)
    const after = await new Device({ store, timers }).live()
    expect(after.link.lastCommand().timing).toMatchObject({ notedAgoMs: 0, startedAgoMs: 0 })
    after.timers.turnBack(50)
    await after.cut()
    await after.welcomed()
    expect(after.link.lastCommand().timing).toMatchObject({ notedAgoMs: 0 })
  })

  it('is never more than a month, which is as long as a message may say', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live()
    before.link.cut()
    await before.session.report(ana, calledAway)
    before.session.stop()
    const timers = new FakeTimers(99, before.timers.wallMs() + 400 * 86_400_000)
    const after = await new Device({ store, timers }).live()
    expect(after.link.lastCommand().timing.notedAgoMs).toBe(31 * 86_400_000)
  })

  it('is bounded by what this device last heard before the note', async () => {
    const device = await new Device().live()
    await device.beats(1)
    await device.session.report(ana, calledAway)
    await device.beats(3)
    expect(device.link.lastCommand().timing.heardAtMs).toBe(roomMs + 2_000)
  })

  it('is bounded by what an earlier page heard where this one has heard nothing', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live()
    before.link.cut()
    await before.session.report(ana, started)
    before.session.stop()
    const after = new Device({ store })
    await after.session.start()
    await after.session.report(ana, calledAway)
    const { entries } = await store.load()
    expect(entries.map(({ heardAtMs }) => heardAtMs)).toEqual([roomMs, roomMs])
  })

  it('has no bound where no page ever heard the room', async () => {
    const device = new Device()
    await device.session.start()
    await device.session.report(ana, calledAway)
    await device.welcomed()
    expect(device.link.lastCommand().timing.heardAtMs).toBe(0)
  })
})
