// A server restored from a backup: another epoch, and a lane that has forgotten what it had answered.
// Acknowledged reports are kept 15 minutes so that it can be given its lost minutes back.

import { describe, expect, it } from 'vitest'
import { minuteMs } from '../../shared/base/values.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers, settled } from '../support/fakeTimers.ts'
import { ana, applied, calledAway, claim, Device, refused, started, takenBack } from './device.ts'

/** A device that has had three numbers answered: a report, an ask, a report. */
async function answeredThree(store = new FakeOutboxStore()): Promise<Device> {
  const device = await new Device({ store }).live(3)
  await device.session.report(ana, started)
  await device.answer(1, applied(4))
  void device.session.ask(ana, claim)
  await settled()
  await device.answer(2, refused)
  await device.session.report(ana, calledAway)
  await device.answer(3, applied(5))
  return device
}

describe('a restored server', () => {
  it('is given again what it had acknowledged and lost', async () => {
    const device = await answeredThree()
    await device.cut()
    await device.welcomed(3, { epoch: 2, laneN: 0 })
    expect(device.shown).toMatchObject({ epoch: 2, version: 3, liveness: { status: 'live' } })
    expect(device.shown.pending).toMatchObject([{ n: 1 }, { n: 3 }])
    await device.answer(1, applied(4))
    await device.answer(2, takenBack)
    await device.answer(3, applied(5))
    expect(device.sentLane().slice(3)).toEqual(['1 StartFeed', '2 Withdrawn', '3 CalledAway'])
    const timing = device.link.lastCommand().timing
    expect(timing.notedAgoMs).toBe(5_000)
  })

  it('is given only what comes after its own last number', async () => {
    const device = await answeredThree()
    await device.cut()
    await device.welcomed(4, { epoch: 2, laneN: 2 })
    await device.answer(3, applied(5))
    expect(device.sentLane().slice(3)).toEqual(['3 CalledAway'])
  })

  it('is given it again by a page that was loaded meanwhile', async () => {
    const store = new FakeOutboxStore()
    const before = await answeredThree(store)
    before.session.stop()
    const timers = new FakeTimers(0, before.timers.wallMs() + 10 * minuteMs)
    const after = await new Device({ store, timers }).live(3, { epoch: 2, laneN: 2 })
    expect(after.sentLane()).toEqual(['3 CalledAway'])
    expect(after.link.lastCommand().timing.notedAgoMs).toBe(10 * minuteMs)
  })

  it('gets the numbers of reports no longer kept as withdrawals', async () => {
    const device = await answeredThree()
    await device.beats((16 * minuteMs) / 2_000)
    await device.session.report(ana, started)
    await device.answer(4, applied(6))
    await device.cut()
    await device.welcomed(3, { epoch: 2, laneN: 2 })
    await device.answer(3, takenBack)
    expect(device.sentLane().slice(4)).toEqual(['3 Withdrawn', '4 StartFeed'])
  })

  it('may show an older board than the lost epoch did', async () => {
    const device = await answeredThree()
    await device.cut()
    await device.welcomed(1, { epoch: 2, laneN: 3 })
    expect(device.shown).toMatchObject({ epoch: 2, version: 1, liveness: { status: 'live' } })
    expect(device.shown.pending).toEqual([])
  })
})

describe('an acknowledged report', () => {
  it('is kept 15 minutes and then forgotten', async () => {
    const store = new FakeOutboxStore()
    const device = await answeredThree(store)
    await device.beats((14 * minuteMs) / 2_000)
    await device.session.report(ana, started)
    await device.answer(4, applied(6))
    expect((await store.load()).entries.map(({ n }) => n)).toEqual([1, 3, 4])
    await device.beats((2 * minuteMs) / 2_000)
    await device.session.report(ana, calledAway)
    await device.answer(5, applied(7))
    expect((await store.load()).entries.map(({ n }) => n)).toEqual([4, 5])
  })

  it('is kept whatever the wall clock is set to meanwhile', async () => {
    const store = new FakeOutboxStore()
    const device = await answeredThree(store)
    device.timers.setWall(device.timers.wallMs() + 86_400_000)
    await device.session.report(ana, started)
    await device.answer(4, applied(6))
    expect((await store.load()).entries.map(({ n }) => n)).toEqual([1, 3, 4])
  })

  it('gives way to newer ones beyond 500', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live(3)
    for (let n = 1; n <= 502; n += 1) {
      await device.session.report(ana, started)
      await device.answer(n, applied(4))
    }
    const { entries } = await store.load()
    expect(entries).toHaveLength(500)
    expect(entries[0]?.n).toBe(3)
  })
})
