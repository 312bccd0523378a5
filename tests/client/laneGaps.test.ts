// Numbers: a server that waits for an earlier one, a lane that is not the one this outbox was numbered
// for, and two tabs that share one lane.

import { describe, expect, it } from 'vitest'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers, settled } from '../support/fakeTimers.ts'
import {
  ana,
  applied,
  ben,
  calledAway,
  claim,
  Device,
  fault,
  refused,
  started,
  takenBack,
  twoReports,
} from './device.ts'

describe('a gap in the lane', () => {
  it('makes the session go back: kept reports as themselves, the rest withdrawn', async () => {
    const device = await new Device().live()
    await device.session.report(ana, started)
    await device.answer(1, applied(4))
    void device.session.ask(ana, claim)
    await settled()
    await device.answer(2, refused)
    await device.session.report(ben, calledAway)
    await fault(device, 'laneGap', { lane: 'd7', n: 3, expected: 1 })
    expect(device.shown.pending).toMatchObject([
      { n: 1, state: 'sent' },
      { n: 3, state: 'waiting' },
    ])
    await device.answer(1, applied(4))
    await device.answer(2, takenBack)
    await device.answer(3, applied(5))
    expect(device.sentLane()).toEqual([
      '1 StartFeed',
      '2 ClaimNest',
      '3 CalledAway',
      '1 StartFeed',
      '2 Withdrawn',
      '3 CalledAway',
    ])
    expect(device.shown.lateAnswers).toEqual([])
  })

  it('beyond our number puts the report aside: whether it was taken, a person must tell', async () => {
    const device = await twoReports()
    await fault(device, 'laneGap', { lane: 'd7', n: 1, expected: 2 })
    expect(device.shown.stuck).toMatchObject([
      { id: 'd7.1', why: { type: 'fault', code: 'laneGap' }, number: 'withdrawn' },
    ])
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
  })

  it('beyond every number given out asks for the lane anew', async () => {
    const device = await twoReports()
    await fault(device, 'laneGap', { lane: 'd7', n: 1, expected: 40 })
    expect(device.link.isOpen).toBe(false)
    expect(device.shown.stuck).toMatchObject([{ id: 'd7.1' }])
  })

  it('at the very number that was sent is asked again after a pause', async () => {
    const device = await twoReports()
    await fault(device, 'laneGap', { lane: 'd7', n: 1, expected: 1 })
    expect(device.sentLane()).toHaveLength(1)
    await device.timers.pass(500)
    expect(device.sentLane()).toEqual(['1 StartFeed', '1 StartFeed'])
  })
})

describe('a welcome whose lane has lost answers', () => {
  it('is sent the numbers from there: refusals are not journalled', async () => {
    const device = await new Device().live()
    void device.session.ask(ana, claim)
    await settled()
    await device.answer(1, refused)
    await device.cut()
    await device.welcomed(3, { laneN: 0 })
    await device.answer(1, takenBack)
    await device.session.report(ana, calledAway)
    expect(device.sentLane()).toEqual(['1 ClaimNest', '1 Withdrawn', '2 CalledAway'])
    expect(device.shown.lateAnswers).toEqual([])
  })
})

describe('a lane that is not the one this outbox was numbered for', () => {
  it('puts what waits aside and goes on behind the server', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    await device.session.report(ana, started)
    await device.answer(1, applied(4))
    await device.session.report(ben, calledAway)
    await device.cut()
    await device.welcomed(4, { device: { id: 'd9', signedIn: [ana] }, laneN: 5 })
    expect(device.shown.stuck).toMatchObject([
      { id: 'd7.2', body: calledAway, why: { code: 'laneNotYours' }, number: 'withdrawn' },
    ])
    await device.session.report(ana, started)
    expect(device.link.lastCommand()).toMatchObject({ lane: 'd9', n: 6, body: started })
    expect((await store.load()).lane).toBe('d9')
  })

  it('holds for the same lane when the server is ahead of this store', async () => {
    const device = new Device()
    await device.session.start()
    await device.session.report(ana, started)
    await device.welcomed(3, { laneN: 40 })
    expect(device.link.commands()).toEqual([])
    expect(device.shown.stuck).toMatchObject([{ body: started, number: 'withdrawn' }])
    const { id } = device.shown.stuck[0] ?? { id: '' }
    await device.session.retryStuck(id)
    expect(device.sentLane()).toEqual(['41 StartFeed'])
  })
})

describe('two tabs of one device', () => {
  it('never give out one number twice', async () => {
    const store = new FakeOutboxStore()
    const timers = new FakeTimers()
    const [one, two] = [new Device({ store, timers }), new Device({ store, timers })]
    await Promise.all([one.live(), two.live()])
    const kept = await Promise.all(
      [one, two, one, two].map(({ session }) => session.report(ana, calledAway)),
    )
    const numbers = kept.map((outcome) => (outcome.status === 'kept' ? outcome.n : 0))
    expect(numbers.sort()).toEqual([1, 2, 3, 4])
  })

  it("send each other's reports as themselves, not as withdrawals", async () => {
    const store = new FakeOutboxStore()
    const timers = new FakeTimers()
    const offline = new Device({ store, timers })
    await offline.session.start()
    const online = await new Device({ store, timers }).live()
    await offline.session.report(ben, started)
    await online.session.report(ana, calledAway)
    await settled()
    expect(online.sentLane()).toEqual(['1 StartFeed'])
    await online.answer(1, applied(4))
    expect(online.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
  })

  it('learn with the next welcome what the other has had answered', async () => {
    const store = new FakeOutboxStore()
    const timers = new FakeTimers()
    const offline = new Device({ store, timers })
    await offline.session.start()
    await offline.session.report(ben, started)
    const online = await new Device({ store, timers }).live()
    await online.answer(1, applied(3))
    expect(offline.shown.pending).toHaveLength(1)
    await offline.welcomed(3, { laneN: 1 })
    expect(offline.shown.pending).toEqual([])
    expect(offline.link.commands()).toEqual([])
  })

  it('withdraw nothing of the other while the store cannot be read', async () => {
    const store = new FakeOutboxStore()
    const timers = new FakeTimers()
    const [one, two] = [new Device({ store, timers }), new Device({ store, timers })]
    await Promise.all([one.session.start(), two.live()])
    await one.session.report(ben, started)
    store.fail('load')
    await two.session.report(ana, calledAway)
    await two.beats(2)
    expect(two.link.commands()).toEqual([])
    // Once at its start, then after pauses of 0.4, 0.8 and 1.5 s: never over and over.
    expect(store.calls.filter((call) => call === 'load')).toHaveLength(2 + 4)
    store.fail()
    await two.beats(4)
    expect(two.sentLane()[0]).toBe('1 StartFeed')
  })

  it('find what the other has had answered, and send none of it anew as a loss', async () => {
    const store = new FakeOutboxStore()
    const timers = new FakeTimers()
    const one = await new Device({ store, timers }).live()
    const two = await new Device({ store, timers }).live()
    void one.session.ask(ana, claim)
    await settled()
    await one.answer(1, applied(4))
    await two.session.report(ana, calledAway)
    await settled()
    expect(two.sentLane()).toEqual(['1 Withdrawn'])
    await two.answer(1, applied(4))
    expect(two.sentLane()).toEqual(['1 Withdrawn', '2 CalledAway'])
    expect(two.shown).toMatchObject({ lateAnswers: [], stuck: [] })
  })
})
