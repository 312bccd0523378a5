// A one-time code for somebody else and the room's last records, asked over the live link.

import { describe, expect, it } from 'vitest'
import { settled } from '../support/fakeTimers.ts'
import { ana, ben, calledAway, Device, records } from './device.ts'

const told = { type: 'code', person: ben, code: '12345678', lifeMs: 600_000 } as const

describe('a code for somebody else', () => {
  it('is asked of the server and told to whoever asked, and stands nowhere else', async () => {
    const device = await new Device().live()
    const asked = device.session.issueCode(ben)
    expect(device.link.sent.at(-1)).toEqual({ type: 'issueCode', person: ben })
    device.link.say(told)
    expect(await asked).toEqual({ status: 'done', code: '12345678', lifeMs: 600_000 })
    expect(JSON.stringify(device.shown)).not.toContain('12345678')
    expect(JSON.stringify(await device.store.load())).not.toContain('12345678')
  })

  it('that may not be had says why', async () => {
    const device = await new Device().live()
    const asked = device.session.issueCode(ben)
    device.link.say({ type: 'fault', code: 'notAllowed' })
    expect(await asked).toEqual({ status: 'fault', code: 'notAllowed' })
  })

  it('is not taken from a code for another, nor from a sign-in that happens meanwhile', async () => {
    const device = await new Device().live()
    const asked = device.session.issueCode(ben)
    device.link.say({ ...told, person: ana, code: '99999999' })
    device.link.say({ type: 'signedIn', people: [ana, ben] })
    device.link.say(told)
    expect(await asked).toMatchObject({ status: 'done', code: '12345678' })
    expect(device.shown.signedIn).toEqual([ana, ben])
  })

  it('waits for no sign-in and no sign-in for it: one at a time', async () => {
    const device = await new Device().live()
    void device.session.issueCode(ben)
    expect(await device.session.signIn(ana, '2468')).toEqual({ status: 'busy' })
    expect(device.link.sent.map(({ type }) => type)).toEqual(['hello', 'issueCode'])
  })

  it('is not asked while the room is not live, and given up when the link goes', async () => {
    const device = new Device()
    await device.session.start()
    expect(await device.session.issueCode(ben)).toEqual({ status: 'notLive' })
    await device.welcomed()
    const asked = device.session.issueCode(ben)
    await settled()
    device.link.cut()
    expect(await asked).toEqual({ status: 'notLive' })
  })
})

describe('the last records', () => {
  it('are what the server holds, and change nothing on the board', async () => {
    const device = await new Device().live(3)
    const asked = device.session.recentRecords(50)
    expect(device.link.sent.at(-1)).toEqual({ type: 'recentRecords', count: 50 })
    device.link.say({ type: 'records', records: records(0, 3) })
    expect(await asked).toEqual({ status: 'done', records: records(0, 3) })
    expect(device.shown.version).toBe(3)
  })

  it('are read beside a sign-in, and each gets its own answer', async () => {
    const device = await new Device().live()
    const read = device.session.recentRecords(50)
    const signing = device.session.signIn(ben, '1111')
    device.link.say({ type: 'fault', code: 'pinWrong' })
    device.link.say({ type: 'records', records: [] })
    expect(await signing).toEqual({ status: 'fault', code: 'pinWrong' })
    expect(await read).toEqual({ status: 'done', records: [] })
  })

  it('that do not come are given up after 15 s, and no report is touched by it', async () => {
    const device = await new Device().live()
    await device.session.report(ana, calledAway)
    const read = device.session.recentRecords(50)
    await device.beats(8)
    expect(await read).toEqual({ status: 'noAnswer' })
    expect(device.shown.stuck).toEqual([])
  })

  it('are ended with the page', async () => {
    const device = await new Device().live()
    const read = device.session.recentRecords(50)
    device.session.stop()
    expect(await read).toEqual({ status: 'stopped' })
  })
})
