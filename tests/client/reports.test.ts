// Reports: kept on the device first, then drawn, then sent, in order, until each is answered.

import { describe, expect, it } from 'vitest'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { settled } from '../support/fakeTimers.ts'
import { ana, applied, ben, calledAway, Device, record, refused, started } from './device.ts'

describe('a report', () => {
  it('is kept, then drawn, then sent', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    const release = store.hold()
    void device.session.report(ana, calledAway)
    await settled()
    expect(device.shown.pending).toEqual([])
    expect(device.link.commands()).toEqual([])
    release()
    await settled()
    expect(device.shown.pending).toMatchObject([{ n: 1, kind: 'report', state: 'sent' }])
    expect(device.sentLane()).toEqual(['1 CalledAway'])
  })

  it('noted offline waits, is shown with its age, and is sent when the room is back', async () => {
    const device = await new Device().live()
    await device.cut()
    expect(await device.session.report(ana, calledAway)).toMatchObject({ status: 'kept', n: 1 })
    await device.timers.pass(60_000)
    expect(device.shown.pending).toMatchObject([
      { n: 1, state: 'waiting', by: ana, body: calledAway, agoMs: 60_000 },
    ])
    expect(device.link.commands()).toEqual([])
    while (!device.link.isTrying) await device.timers.pass(1_000)
    await device.welcomed()
    expect(device.sentLane()).toEqual(['1 CalledAway'])
  })

  it('tells who made it when it was answered', async () => {
    const device = await new Device().live()
    const kept = await device.session.report(ana, calledAway)
    if (kept.status !== 'kept') throw new Error(kept.status)
    const setAside = { status: 'applied', version: 4, isSetAside: true } as const
    await device.answer(1, setAside)
    expect(await kept.answered).toEqual(setAside)
  })

  it('stays drawn until the board has reached its version', async () => {
    const device = await new Device().live(3)
    await device.session.report(ana, calledAway)
    await device.answer(1, applied(5))
    device.link.say(record(4))
    expect(device.shown.pending).toMatchObject([{ n: 1, state: 'answered' }])
    device.link.say(record(5))
    expect(device.shown.pending).toEqual([])
  })

  it('goes out one at a time, in the order of the numbers', async () => {
    const device = await new Device().live()
    await Promise.all([
      device.session.report(ana, started),
      device.session.report(ben, calledAway),
      device.session.report(ana, calledAway),
    ])
    expect(device.sentLane()).toEqual(['1 StartFeed'])
    await device.answer(1, applied(4))
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
    await device.answer(2, applied(5))
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway', '3 CalledAway'])
    expect(device.link.commands().map(({ by }) => by)).toEqual([ana, ben, ana])
  })

  it('is sent when the answer to the one before stands in the store, not sooner', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    await device.session.report(ana, started)
    await device.session.report(ben, calledAway)
    const release = store.hold()
    await device.answer(1, applied(4))
    device.link.say({ type: 'signedIn', people: [ana, ben] })
    expect(device.sentLane()).toEqual(['1 StartFeed'])
    release()
    await settled()
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
  })

  it('is sent again until it is answered', async () => {
    const device = await new Device().live()
    await device.session.report(ana, calledAway)
    await device.beats(10)
    expect(device.link.commands().map(({ n, timing }) => [n, timing.notedAgoMs])).toEqual([
      [1, 0],
      [1, 5_000],
      [1, 10_000],
      [1, 15_000],
      [1, 20_000],
    ])
    await device.answer(1, applied(4))
    await device.beats(10)
    expect(device.link.commands()).toHaveLength(5)
  })

  it('survives a reload, in order, with what a page noted before', async () => {
    const store = new FakeOutboxStore()
    const before = new Device({ store })
    await before.session.start()
    await before.session.report(ana, started)
    await before.session.report(ana, calledAway)
    before.session.stop()
    const after = new Device({ store })
    await after.session.start()
    expect(after.shown.pending).toMatchObject([{ n: 1 }, { n: 2 }])
    await after.welcomed()
    await after.answer(1, applied(4))
    await after.answer(2, applied(5))
    expect(after.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
  })

  it('whose answer was lost with the link is sent again under its number', async () => {
    const device = await new Device().live()
    await device.session.report(ana, calledAway)
    await device.cut()
    await device.welcomed(4, { laneN: 1 })
    await device.answer(1, applied(4))
    expect(device.sentLane()).toEqual(['1 CalledAway', '1 CalledAway'])
    expect(device.shown.pending).toEqual([])
  })

  it('is not taken, and that is said, when the device owes 500', async () => {
    const device = new Device()
    await device.session.start()
    for (let n = 1; n <= 500; n += 1) {
      expect(await device.session.report(ana, calledAway)).toMatchObject({ status: 'kept', n })
    }
    expect(await device.session.report(ana, calledAway)).toEqual({ status: 'full' })
    await device.welcomed()
    expect(await device.session.ask(ana, { type: 'EndBreak', v: 1 })).toEqual({ status: 'full' })
    expect(device.shown.pending).toHaveLength(500)
    await device.answer(1, applied(4))
    expect(await device.session.report(ana, calledAway)).toMatchObject({ status: 'kept', n: 501 })
  })

  it('is not taken, and that is said, when the store fails', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    store.fail('add')
    expect(await device.session.report(ana, calledAway)).toEqual({ status: 'notKept' })
    expect(device.shown).toMatchObject({ pending: [], isStoreFailing: true })
    store.fail()
    expect(await device.session.report(ana, calledAway)).toMatchObject({ status: 'kept' })
    expect(device.shown.isStoreFailing).toBe(false)
  })

  it('goes on to the next although the store cannot write that one was answered', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    await device.session.report(ana, started)
    await device.session.report(ana, calledAway)
    store.fail('write')
    await device.answer(1, applied(4))
    expect(device.sentLane()).toEqual(['1 StartFeed', '2 CalledAway'])
    expect(device.shown.isStoreFailing).toBe(true)
  })

  it('answered twice, the second time otherwise, keeps its first answer', async () => {
    const device = await new Device().live(3)
    await device.session.report(ana, calledAway)
    await device.answer(1, applied(3))
    await device.answer(1, refused)
    expect(device.shown).toMatchObject({ pending: [], stuck: [] })
  })

  it('waits, and is drawn as waiting, when the link goes while the lane is taken on', async () => {
    const store = new FakeOutboxStore()
    const device = new Device({ store })
    await device.session.start()
    await device.session.report(ana, calledAway)
    const release = store.hold()
    await device.welcomed()
    device.link.cut()
    release()
    await settled()
    expect(device.shown.pending).toMatchObject([{ n: 1, state: 'waiting' }])
    expect(device.link.commands()).toEqual([])
  })

  it('is not sent before the lane could be read from the store', async () => {
    const store = new FakeOutboxStore()
    const device = new Device({ store })
    await device.session.start()
    await device.session.report(ana, calledAway)
    store.fail('adopt')
    await device.welcomed()
    expect(device.shown).toMatchObject({ canAsk: false, isStoreFailing: true })
    expect(device.link.commands()).toEqual([])
    store.fail()
    await device.beats(1)
    expect(device.sentLane()).toEqual(['1 CalledAway'])
    expect(device.shown.canAsk).toBe(true)
  })

  it('lets the device say that it is not live when its outbox cannot be read for ten seconds', async () => {
    const store = new FakeOutboxStore()
    store.fail('load')
    const device = new Device({ store })
    await device.session.start()
    await device.timers.pass(9_900)
    expect(device.shown.liveness.status).toBe('connecting')
    await device.timers.pass(200)
    expect(device.shown.liveness).toMatchObject({ status: 'notLive', why: 'silent' })
  })

  it('keeps the device silent until what an earlier page life left could be read', async () => {
    const store = new FakeOutboxStore()
    store.fail('load')
    const device = new Device({ store })
    await device.session.start()
    await device.timers.pass(3_000)
    expect(device.link.attempts).toHaveLength(0)
    expect(device.shown.isStoreFailing).toBe(true)
    store.fail()
    await device.timers.pass(8_000)
    expect(device.link.attempts).toHaveLength(1)
  })
})
