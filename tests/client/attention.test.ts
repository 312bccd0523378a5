// What a screen says over time: a call once, a "now" until it is seen, and what was held back while a
// nest was open as soon as the hands are free.

import { beforeEach, describe, expect, it } from 'vitest'
import { Attention, type Call, callsMax, type Moment } from '../../client/attention/attention.ts'
import { FakeAttention } from '../support/fakeAttention.ts'

const around = { holdsClaim: false, place: 'corridor', isDark: false } as const
const nowAlert: Call = {
  key: 'help 3',
  change: { type: 'alert', level: 'now', isForMyNest: false },
}
const soonAlert: Call = {
  key: 'short 4',
  change: { type: 'alert', level: 'soon', isForMyNest: false },
}
const asked: Call = { key: 'fluids 5', change: { type: 'asked' } }

let device: FakeAttention
let attention: Attention
beforeEach(() => {
  device = new FakeAttention()
  attention = new Attention(device)
})

/** What is said at this moment. */
function at(seconds: number, moment: Partial<Moment> = {}): readonly string[] {
  const still = { around, calls: [], isNotLive: false }
  attention.update({ ...still, ...moment, monoNowMs: seconds * 1_000 })
  return device.taken()
}

const now = ['sound now', 'vibrate now']
const soon = ['sound soon', 'vibrate soon']
const notLive = ['sound notLive', 'vibrate notLive']

describe('a call', () => {
  it('that is "now" is said every ten seconds until it is seen', () => {
    const calls = [nowAlert]
    expect([0, 1, 9, 10, 19, 20].map((s) => at(s, { calls }))).toEqual([now, [], [], now, [], now])
    expect([21, 30, 40].map((s) => at(s))).toEqual([[], [], []])
  })

  it('that is "soon" is said once, and again at the next step of its ladder', () => {
    expect([0, 10, 60].map((s) => at(s, { calls: [soonAlert] }))).toEqual([soon, [], []])
    expect(at(61, { calls: [{ ...soonAlert, key: 'short 4, step 2' }] })).toEqual(soon)
  })

  it('that asks one of many is said once, with the most urgent sound', () => {
    expect([0, 10, 20].map((s) => at(s, { calls: [asked] }))).toEqual([now, [], []])
  })

  it('that went and comes back is said anew', () => {
    at(0, { calls: [soonAlert] })
    at(1)
    expect(at(2, { calls: [soonAlert] })).toEqual(soon)
  })

  it('is not heard beside a more urgent one, nor after it', () => {
    expect(at(0, { calls: [soonAlert, asked, nowAlert] })).toEqual(now)
    expect(at(1, { calls: [soonAlert, asked] })).toEqual([])
  })

  it('beyond the hundredth of a moment is not listened to', () => {
    const calls = Array.from({ length: callsMax }, (_, n) => ({ ...soonAlert, key: `${n}` }))
    expect(at(0, { calls: [...calls, nowAlert] })).toEqual(soon)
  })
})

describe('a room that is not live', () => {
  it('is said every twenty seconds while it lasts', () => {
    const isNotLive = true
    expect([0, 10, 19, 20].map((s) => at(s, { isNotLive }))).toEqual([notLive, [], [], notLive])
    expect(at(21)).toEqual([])
    expect(at(22, { isNotLive })).toEqual(notLive)
  })
})

describe('while a claim is held', () => {
  const busy = { ...around, holdsClaim: true }

  it('the screen is kept awake, and only then', () => {
    at(0, { around: busy })
    expect(device.isAwake).toBe(true)
    at(1)
    expect(device.isAwake).toBe(false)
  })

  it('calls are held back and said when the hands are free', () => {
    const calls = [soonAlert]
    expect([0, 5].map((s) => at(s, { calls, around: busy }))).toEqual([[], []])
    expect(at(6, { calls })).toEqual(soon)
    expect(at(7, { calls })).toEqual([])
  })

  it('a "now" for this nest is said at once', () => {
    const mine = { ...nowAlert, change: { ...nowAlert.change, isForMyNest: true } as const }
    expect(at(0, { calls: [mine], around: busy })).toEqual(now)
  })

  it('an answer to a record is not felt; with free hands it is', () => {
    at(0, { around: busy })
    attention.saved()
    expect(device.taken()).toEqual([])
    at(1)
    attention.saved()
    expect(device.taken()).toEqual(['sound saved', 'vibrate saved'])
  })
})
