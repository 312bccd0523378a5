// What a fault does to what this device noted: the same again later, back to an earlier number, or the
// body aside where people see it. Nothing a person did is dropped, and nothing blocks the lane for ever.

import { describe, expect, it } from 'vitest'
import { settled } from '../support/fakeTimers.ts'
import { ana, applied, calledAway, claim, Device, fault, twoReports, withdrawn } from './device.ts'

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
