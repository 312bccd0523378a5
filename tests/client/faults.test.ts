// What a fault does to what this device noted: the same again later, back to an earlier number, or the
// body aside where people see it. Nothing a person did is dropped, and nothing blocks the lane for ever.

import { describe, expect, it } from 'vitest'
import type { Fault, FaultCode } from '../../shared/wire/frames.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { FakeTimers, settled } from '../support/fakeTimers.ts'
import {
  ana,
  applied,
  ben,
  calledAway,
  claim,
  Device,
  refused,
  started,
  takenBack,
  withdrawn,
} from './device.ts'

async function fault(device: Device, code: FaultCode, more: Partial<Fault> = {}) {
  device.link.say({ type: 'fault', code, ...more })
  await settled()
}

/** A device that has sent the first of two reports. */
async function twoReports(store = new FakeOutboxStore()): Promise<Device> {
  const device = await new Device({ store }).live()
  await device.session.report(ana, started)
  await device.session.report(ben, calledAway)
  return device
}

describe('a server that cannot just now', () => {
  it.each(['tooMany', 'busy', 'journalFailing', 'internal'] as const)(
    '(%s) is asked again after a pause',
    async (code) => {
      const device = await twoReports()
      await fault(device, code, { lane: 'd7', n: 1 })
      expect(device.sentLane()).toEqual(['1 StartFeed'])
      await device.timers.pass(500)
      expect(device.sentLane()).toEqual(['1 StartFeed', '1 StartFeed'])
      await device.answer(1, applied(4))
      expect(device.sentLane().at(-1)).toBe('2 CalledAway')
      expect(device.shown.stuck).toEqual([])
    },
  )

  it('is left alone during the pause, whatever else is noted', async () => {
    const device = await twoReports()
    await fault(device, 'busy', { lane: 'd7', n: 1 })
    await device.session.report(ana, calledAway)
    expect(device.sentLane()).toEqual(['1 StartFeed'])
  })

  it('is asked ever less often, but at least every eight seconds', async () => {
    const device = await twoReports()
    const waits: number[] = []
    for (let time = 0; time < 8; time += 1) {
      await fault(device, 'busy', { lane: 'd7', n: 1 })
      const [sent, sinceMs] = [device.sentLane().length, device.timers.nowMs()]
      while (device.sentLane().length === sent) await device.timers.pass(125)
      waits.push(device.timers.nowMs() - sinceMs)
    }
    expect(waits).toEqual([375, 750, 1_500, 3_000, 6_000, 6_000, 6_000, 6_000])
    expect(device.shown.pending).toHaveLength(2)
  })

  it('is asked soon again when it had answered in between', async () => {
    const device = await twoReports()
    for (let time = 0; time < 4; time += 1) {
      await fault(device, 'busy', { lane: 'd7', n: 1 })
      await device.beats(2)
    }
    await device.answer(1, applied(3))
    await fault(device, 'busy', { lane: 'd7', n: 2 })
    const sent = device.sentLane().length
    await device.timers.pass(375)
    expect(device.sentLane()).toHaveLength(sent + 1)
  })

  it('holds an ask up for its 15 s and no longer', async () => {
    const device = await new Device().live()
    const asked = device.session.ask(ana, claim)
    await settled()
    for (let time = 0; time < 8; time += 1) {
      await fault(device, 'busy', { lane: 'd7', n: 1 })
      await device.beats(1)
    }
    expect(await asked).toEqual({ status: 'expired' })
    await device.beats(4)
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn })
  })
})

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

describe('a fault', () => {
  it('ends an ask with its code, and the number is withdrawn', async () => {
    const device = await new Device().live()
    const asked = device.session.ask(ana, claim)
    await settled()
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    expect(await asked).toEqual({ status: 'fault', code: 'notSignedIn' })
    expect(device.sentLane()).toEqual(['1 ClaimNest', '1 Withdrawn'])
  })

  it('that names no number is about the one in flight', async () => {
    const device = await twoReports()
    await fault(device, 'malformed')
    expect(device.shown.stuck).toMatchObject([{ id: 'd7.1' }])
  })

  it('about a number that is not in flight changes nothing', async () => {
    const device = await twoReports()
    await fault(device, 'malformed', { lane: 'd7', n: 2 })
    await fault(device, 'malformed', { lane: 'd8', n: 1 })
    await fault(device, 'pinWrong')
    expect(device.shown.stuck).toEqual([])
    await device.answer(1, applied(4))
    await device.answer(2, applied(5))
    await fault(device, 'malformed')
    expect(device.shown.stuck).toEqual([])
  })

  it.each(['helloFirst', 'notPaired', 'protocolOther', 'roomUnknown'] as const)(
    '(%s) about a command makes a new link and keeps the command',
    async (code) => {
      const device = await twoReports()
      await fault(device, code, { lane: 'd7', n: 1 })
      expect(device.link.isOpen).toBe(false)
      expect(device.shown.pending).toHaveLength(2)
      await device.timers.pass(5_000)
      await device.welcomed()
      expect(device.sentLane()).toEqual(['1 StartFeed', '1 StartFeed'])
    },
  )

  it('to a withdrawal makes it wait and go out again', async () => {
    const device = await twoReports()
    await fault(device, 'malformed', { lane: 'd7', n: 1 })
    await fault(device, 'notSignedIn', { lane: 'd7', n: 1 })
    expect(device.sentLane()).toEqual(['1 StartFeed', '1 Withdrawn'])
    await device.timers.pass(500)
    expect(device.sentLane()).toEqual(['1 StartFeed', '1 Withdrawn', '1 Withdrawn'])
    expect(device.shown.stuck).toHaveLength(1)
  })

  it('saying that the lane is not ours, even for a withdrawal, asks for the lane anew', async () => {
    const device = await twoReports()
    await fault(device, 'laneNotYours', { lane: 'd7', n: 1 })
    await fault(device, 'laneNotYours', { lane: 'd7', n: 1 })
    expect(device.link.isOpen).toBe(false)
    expect(device.shown.stuck).toHaveLength(1)
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
