// A report the server will never take as it is: its body goes aside where people see it, its number is
// withdrawn, and only a person decides what becomes of it.

import { describe, expect, it } from 'vitest'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import {
  ana,
  applied,
  ben,
  calledAway,
  Device,
  fault,
  refused,
  started,
  takenBack,
  twoReports,
  withdrawn,
} from './device.ts'

describe('a report that will never be taken as it is', () => {
  it.each(['malformed', 'tooLarge', 'notSignedIn', 'readOnlyScreen', 'laneNotYours'] as const)(
    '(%s) goes aside whole, its number is withdrawn, and the next one goes out',
    async (code) => {
      const store = new FakeOutboxStore()
      const device = await twoReports(store)
      await fault(device, code, { lane: 'd7', n: 1 })
      expect(device.sentLane()).toEqual(['1 StartFeed', '1 Withdrawn'])
      expect(device.shown.stuck).toMatchObject([
        { id: 'd7.1', by: ana, body: started, why: { type: 'fault', code }, number: 'owed' },
      ])
      await device.answer(1, takenBack)
      expect(device.sentLane().at(-1)).toBe('2 CalledAway')
      expect((await store.load()).stuck).toMatchObject([{ id: 'd7.1', number: 'withdrawn' }])
    },
  )

  it('tells who made it that it is stuck', async () => {
    const device = await new Device().live()
    const kept = await device.session.report(ana, started)
    if (kept.status !== 'kept') throw new Error(kept.status)
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    const why = { type: 'fault', code: 'notSignedIn' }
    expect(await kept.answered).toEqual({ status: 'stuck', why })
  })

  it('is not stuck any more when its withdrawal shows that it had arrived', async () => {
    const store = new FakeOutboxStore()
    const device = await twoReports(store)
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    await device.answer(1, applied(4))
    expect(device.shown.stuck).toEqual([])
    expect((await store.load()).stuck).toEqual([])
    expect(device.sentLane().at(-1)).toBe('2 CalledAway')
  })

  it('is still stuck, and its number still owed, after a reload', async () => {
    const store = new FakeOutboxStore()
    const before = await twoReports(store)
    await fault(before, 'malformed', { lane: 'd7', n: 1 })
    before.session.stop()
    const after = await new Device({ store }).live()
    expect(after.shown.stuck).toMatchObject([{ id: 'd7.1', number: 'owed' }])
    expect(after.sentLane()).toEqual(['1 Withdrawn'])
    await after.answer(1, takenBack)
    expect(after.sentLane()).toEqual(['1 Withdrawn', '2 CalledAway'])
  })

  it('may be reported anew once its number is withdrawn, as old as it is', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    await device.session.report(ana, started)
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    expect(await device.session.retryStuck('d7.1')).toEqual({ status: 'numberOwed' })
    await device.answer(1, takenBack)
    await device.beats(2)
    expect(await device.session.retryStuck('d7.1')).toMatchObject({ status: 'kept', n: 2 })
    expect(device.link.lastCommand()).toMatchObject({
      n: 2,
      by: ana,
      body: started,
      timing: { notedAgoMs: 4_000 },
    })
    expect(device.shown.stuck).toEqual([])
    expect((await store.load()).stuck).toEqual([])
    expect(await device.session.retryStuck('d7.1')).toEqual({ status: 'unknown' })
  })

  it('is forgotten when a person says so, and not before', async () => {
    const store = new FakeOutboxStore()
    const device = await twoReports(store)
    await fault(device, 'tooLarge', { lane: 'd7', n: 1 })
    await device.answer(1, takenBack)
    await device.timers.pass(86_400_000)
    expect(device.shown.stuck).toHaveLength(1)
    await device.session.forgetStuck('d7.1')
    expect(device.shown.stuck).toEqual([])
    expect((await store.load()).stuck).toEqual([])
  })

  it('counts toward the 500 a device may owe', async () => {
    const device = await twoReports()
    await fault(device, 'tooLarge', { lane: 'd7', n: 1 })
    await device.answer(1, takenBack)
    for (let n = 3; n <= 500; n += 1) await device.session.report(ana, calledAway)
    expect(await device.session.report(ana, calledAway)).toEqual({ status: 'full' })
  })

  it('goes aside as well when it is rejected, which a report never should be', async () => {
    const device = await twoReports()
    await device.answer(1, refused)
    expect(device.shown.stuck).toMatchObject([
      { id: 'd7.1', why: { type: 'rejected', why: { code: 'NotOnShift' } }, number: 'withdrawn' },
    ])
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
  })

  it('goes aside after ten internal faults in a row, and no other goes with it', async () => {
    const device = await twoReports()
    for (let time = 0; time < 30; time += 1) {
      await fault(device, 'internal', { lane: 'd7', n: 1 })
      await device.beats(4)
    }
    expect(device.shown.stuck).toMatchObject([{ id: 'd7.1', number: 'owed' }])
    expect(device.shown.pending).toMatchObject([{ n: 2, state: 'waiting' }])
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn })
    await device.answer(1, takenBack)
    expect(device.sentLane().at(-1)).toBe('2 CalledAway')
  })
})

describe('a withdrawal', () => {
  it('is carried by its own person while they are signed in, or by who is', async () => {
    const device = await new Device().live()
    await device.session.report(ben, started)
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn, by: ana })
    await device.cut()
    await device.welcomed(3, { device: { id: 'd7', signedIn: [ana, ben] } })
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn, by: ben })
  })

  it('of a number nobody remembers waits until there is somebody to carry it', async () => {
    const store = new FakeOutboxStore()
    await store.write({ numbering: { lane: 'd7', lastN: 1 } })
    const device = await new Device({ store }).live(3, { device: { id: 'd7', signedIn: [] } })
    expect(device.link.commands()).toEqual([])
    device.link.say({ type: 'signedIn', people: [ben] })
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn, by: ben })
  })
})
