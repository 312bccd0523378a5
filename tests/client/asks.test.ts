// Asks: now or not at all. Sent only on a live link, given up after 15 s, never sent by a later page.

import { describe, expect, it } from 'vitest'
import type { AskOutcome } from '../../client/session/outcomes.ts'
import { FakeOutboxStore } from '../support/fakeOutboxStore.ts'
import { settled } from '../support/fakeTimers.ts'
import {
  ana,
  applied,
  calledAway,
  claim,
  Device,
  record,
  records,
  refused,
  roomMs,
  takenBack,
  withdrawn,
} from './device.ts'

/** The outcome once there is one. */
function followed(asked: Promise<AskOutcome>): { outcome: AskOutcome | null } {
  const followed: { outcome: AskOutcome | null } = { outcome: null }
  void asked.then((outcome) => {
    followed.outcome = outcome
  })
  return followed
}

describe('an ask', () => {
  it('is sent at once on a live link, under the next number of the lane', async () => {
    const device = await new Device().live()
    const asked = device.session.ask(ana, claim)
    await settled()
    expect(device.link.commands()).toEqual([
      {
        type: 'command',
        lane: 'd7',
        n: 1,
        by: ana,
        timing: { notedAgoMs: 0, heardAtMs: roomMs },
        body: claim,
      },
    ])
    expect(device.shown.pending).toMatchObject([{ n: 1, kind: 'ask', state: 'sent' }])
    await device.answer(1, refused)
    expect(await asked).toEqual(refused)
    expect(device.shown.pending).toEqual([])
  })

  it('is pending until the board shows what was granted', async () => {
    const device = await new Device().live(3)
    const asked = device.session.ask(ana, claim)
    await settled()
    await device.answer(1, applied(4))
    expect(await asked).toEqual(applied(4))
    expect(device.shown.pending).toMatchObject([{ n: 1, state: 'answered' }])
    device.link.say(record(4))
    expect(device.shown.pending).toEqual([])
  })

  it('is kept in the store before it is sent', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    const release = store.hold()
    void device.session.ask(ana, claim)
    await settled()
    expect(device.link.commands()).toEqual([])
    release()
    await settled()
    expect(device.sentLane()).toEqual(['1 ClaimNest'])
  })

  it('is not made while the room is not live, nor noted for later', async () => {
    const device = new Device()
    await device.session.start()
    expect(await device.session.ask(ana, claim)).toEqual({ status: 'notLive' })
    await device.welcomed()
    await device.cut()
    expect(await device.session.ask(ana, claim)).toEqual({ status: 'notLive' })
    await device.welcomed()
    expect(device.link.commands()).toEqual([])
    expect((await device.store.load()).lastN).toBe(0)
  })

  it('is not made by a screen that is not paired', async () => {
    const device = await new Device().live(3, { device: null, laneN: null })
    expect(device.shown).toMatchObject({ canAsk: false, liveness: { status: 'live' } })
    expect(await device.session.ask(ana, claim)).toEqual({ status: 'notLive' })
  })

  it('is given up after 15 s, and its number goes out as a withdrawal', async () => {
    const device = await new Device().live()
    const asked = followed(device.session.ask(ana, claim))
    await device.beats(7)
    expect(asked.outcome).toBeNull()
    await device.timers.pass(1_000)
    expect(asked.outcome).toEqual({ status: 'expired' })
    expect(device.link.lastCommand()).toMatchObject({ n: 1, body: withdrawn })
    expect(device.shown.pending).toMatchObject([{ n: 1, state: 'withdrawn' }])
    await device.answer(1, takenBack)
    expect(device.shown).toMatchObject({ pending: [], lateAnswers: [] })
  })

  it('that had got through all the same is told of when its withdrawal is answered', async () => {
    const device = await new Device().live(3)
    const asked = followed(device.session.ask(ana, claim))
    await device.beats(8)
    expect(asked.outcome).toEqual({ status: 'expired' })
    await device.answer(1, applied(4))
    expect(device.shown.lateAnswers).toEqual([{ n: 1, by: ana, body: claim, version: 4 }])
    device.session.dismissLateAnswer(1)
    expect(device.shown.lateAnswers).toEqual([])
  })

  it('answered late is one of the latest eight such', async () => {
    const device = await new Device().live(3)
    for (let n = 1; n <= 9; n += 1) {
      void device.session.ask(ana, claim)
      await device.beats(8)
      await device.answer(n, applied(3))
    }
    expect(device.shown.lateAnswers.map(({ n }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9])
  })

  it('once sent, and cut off, is sent again as itself within its 15 s', async () => {
    const device = await new Device().live()
    const asked = followed(device.session.ask(ana, claim))
    await settled()
    await device.cut()
    expect(asked.outcome).toBeNull()
    await device.welcomed()
    const [first, second] = device.link.commands()
    expect(second).toEqual({ ...first, timing: { notedAgoMs: 5_000, heardAtMs: roomMs } })
    await device.answer(1, refused)
    expect(asked.outcome).toEqual(refused)
  })

  it('once sent, and cut off for longer, is withdrawn', async () => {
    const device = await new Device().live()
    const asked = followed(device.session.ask(ana, claim))
    await settled()
    await device.cut()
    await device.timers.pass(15_000)
    device.link.cut()
    await device.timers.pass(5_000)
    expect(asked.outcome).toEqual({ status: 'expired' })
    await device.welcomed()
    expect(device.sentLane()).toEqual(['1 ClaimNest', '1 Withdrawn'])
  })

  it('cut off before it was sent was never made, and only its number goes out', async () => {
    const device = await new Device().live()
    void device.session.report(ana, calledAway)
    const asked = followed(device.session.ask(ana, claim))
    await settled()
    expect(device.sentLane()).toEqual(['1 CalledAway'])
    device.link.cut()
    await settled()
    expect(asked.outcome).toEqual({ status: 'notLive' })
    await device.timers.pass(5_000)
    await device.welcomed()
    await device.answer(1, applied(4))
    expect(device.sentLane()).toEqual(['1 CalledAway', '1 CalledAway', '2 Withdrawn'])
  })

  it('whose link goes while it is being kept was never made', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    const release = store.hold()
    const asked = followed(device.session.ask(ana, claim))
    device.link.cut()
    release()
    await settled()
    expect(asked.outcome).toEqual({ status: 'notLive' })
    await device.timers.pass(5_000)
    await device.welcomed()
    expect(device.sentLane()).toEqual(['1 Withdrawn'])
  })

  it('left unanswered by an earlier page is withdrawn by the next, never made', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live()
    void before.session.ask(ana, claim)
    await settled()
    before.session.stop()
    const after = await new Device({ store }).live()
    expect(after.sentLane()).toEqual(['1 Withdrawn'])
    await after.answer(1, applied(4))
    expect(after.shown.lateAnswers).toMatchObject([{ n: 1, body: claim, version: 4 }])
    expect((await store.load()).entries).toEqual([])
  })

  it('answered, but still in a store that could not write so, is not asked or told of again', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live(3)
    void device.session.ask(ana, claim)
    await settled()
    store.fail('write')
    await device.answer(1, applied(3))
    store.fail()
    await device.cut()
    await device.welcomed(3, { laneN: 1 })
    expect(device.sentLane()).toEqual(['1 ClaimNest'])
    expect(device.shown).toMatchObject({ pending: [], lateAnswers: [] })
  })

  it('is not made when the store does not take it', async () => {
    const store = new FakeOutboxStore()
    const device = await new Device({ store }).live()
    store.fail('add')
    expect(await device.session.ask(ana, claim)).toEqual({ status: 'notKept' })
    expect(device.link.commands()).toEqual([])
    expect(device.shown.isStoreFailing).toBe(true)
  })

  it('ends with the page', async () => {
    const device = await new Device().live()
    const asked = device.session.ask(ana, claim)
    await settled()
    device.session.stop()
    expect(await asked).toEqual({ status: 'stopped' })
    expect(await device.session.ask(ana, claim)).toEqual({ status: 'stopped' })
    expect(device.timers.alarmCount).toBe(0)
  })
})

describe('an answer', () => {
  it('to a number never given out changes nothing', async () => {
    const device = await new Device().live()
    await device.answer(9, applied(4))
    void device.session.report(ana, calledAway)
    await settled()
    expect(device.sentLane()).toEqual(['1 CalledAway'])
  })

  it('of another lane is not ours', async () => {
    const device = await new Device().live()
    const asked = followed(device.session.ask(ana, claim))
    await settled()
    await device.answer(1, refused, 'd8')
    expect(asked.outcome).toBeNull()
  })

  it('that comes twice counts once', async () => {
    const device = await new Device().live(3)
    void device.session.ask(ana, claim)
    await settled()
    await device.answer(1, applied(4))
    await device.answer(1, applied(4))
    void device.session.report(ana, calledAway)
    await settled()
    expect(device.sentLane()).toEqual(['1 ClaimNest', '2 CalledAway'])
    await device.answer(1, applied(4))
    expect(device.shown.pending).toMatchObject([
      { n: 1, state: 'answered' },
      { n: 2, state: 'sent' },
    ])
    expect(device.shown.lateAnswers).toEqual([])
  })
})

describe('a device', () => {
  it('reads nothing older than what it was answered, after a new link', async () => {
    const device = await new Device().live(3)
    void device.session.ask(ana, claim)
    await settled()
    await device.answer(1, applied(9))
    await device.cut()
    await device.welcomed(8)
    expect(device.shown).toMatchObject({ version: 3, liveness: { why: 'behind' } })
    await device.timers.pass(5_000)
    await device.welcomed(9)
    expect(device.shown).toMatchObject({ version: 9, liveness: { status: 'live' } })
  })

  it('reads no tail that ends before what it was answered', async () => {
    const device = await new Device().live(3)
    void device.session.ask(ana, claim)
    await settled()
    await device.answer(1, applied(9))
    await device.cut()
    await device.welcomed(0, { state: { type: 'tail', records: records(3, 8) } })
    expect(device.shown.liveness).toMatchObject({ status: 'notLive', why: 'behind' })
  })

  it('reads nothing older than what an earlier page was answered', async () => {
    const store = new FakeOutboxStore()
    const before = await new Device({ store }).live(3)
    void before.session.ask(ana, claim)
    await settled()
    await before.answer(1, applied(9))
    before.session.stop()
    const after = await new Device({ store }).live(8, { laneN: 1 })
    expect(after.shown).toMatchObject({ board: null, liveness: { why: 'behind' } })
  })
})
