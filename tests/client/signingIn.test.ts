// Signing in, first sign-in and signing out over the live link, each with an end.

import { describe, expect, it } from 'vitest'
import { settled } from '../support/fakeTimers.ts'
import { ana, ben, calledAway, Device } from './device.ts'

describe('signing in', () => {
  it('is asked of the server and answered with who is signed in now', async () => {
    const device = await new Device().live()
    const asked = device.session.signIn(ben, '2468')
    expect(device.link.sent.at(-1)).toEqual({ type: 'signIn', person: ben, pin: '2468' })
    device.link.say({ type: 'signedIn', people: [ana, ben] })
    expect(await asked).toEqual({ status: 'done', signedIn: [ana, ben] })
    expect(device.shown.signedIn).toEqual([ana, ben])
  })

  it('with a wrong PIN says so, and with a locked one for how long', async () => {
    const device = await new Device().live()
    const wrong = device.session.signIn(ben, '1111')
    device.link.say({ type: 'fault', code: 'pinWrong' })
    expect(await wrong).toEqual({ status: 'fault', code: 'pinWrong' })
    const locked = device.session.signIn(ben, '1111')
    device.link.say({ type: 'fault', code: 'pinLocked', waitMs: 30_000 })
    expect(await locked).toEqual({ status: 'fault', code: 'pinLocked', waitMs: 30_000 })
    expect(device.shown.signedIn).toEqual([ana])
  })

  it('for the first time takes the code and the PIN of choice', async () => {
    const device = await new Device().live()
    const asked = device.session.redeem(ben, { code: '123456', pin: '2468' })
    expect(device.link.sent.at(-1)).toEqual({
      type: 'redeem',
      person: ben,
      code: '123456',
      pin: '2468',
    })
    device.link.say({ type: 'signedIn', people: [ana, ben] })
    expect(await asked).toMatchObject({ status: 'done' })
  })

  it('out is answered by a list without the person', async () => {
    const device = await new Device().live()
    const asked = device.session.signOut(ana)
    device.link.say({ type: 'signedIn', people: [ana, ben] })
    device.link.say({ type: 'signedIn', people: [ben] })
    expect(await asked).toEqual({ status: 'done', signedIn: [ben] })
  })

  it('is not asked while the room is not live', async () => {
    const device = new Device()
    await device.session.start()
    expect(await device.session.signIn(ana, '2468')).toEqual({ status: 'notLive' })
    expect(device.link.sent).toEqual([])
  })

  it('is asked one at a time', async () => {
    const device = await new Device().live()
    void device.session.signIn(ana, '2468')
    await settled()
    expect(await device.session.signIn(ben, '2468')).toEqual({ status: 'busy' })
  })

  it('is given up after 15 s, and when the link goes', async () => {
    const device = await new Device().live()
    const slow = device.session.signIn(ben, '2468')
    await device.beats(8)
    expect(await slow).toEqual({ status: 'noAnswer' })
    const cut = device.session.signIn(ben, '2468')
    await settled()
    device.link.cut()
    expect(await cut).toEqual({ status: 'notLive' })
  })

  it('takes no fault that is about a command', async () => {
    const device = await new Device().live()
    await device.session.report(ana, calledAway)
    const asked = device.session.signIn(ben, '2468')
    await settled()
    device.link.say({ type: 'fault', code: 'malformed', lane: 'd7', n: 1 })
    device.link.say({ type: 'fault', code: 'pinWrong' })
    expect(await asked).toEqual({ status: 'fault', code: 'pinWrong' })
    expect(device.shown.stuck).toHaveLength(1)
  })
})
