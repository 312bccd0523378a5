// One-time codes, and people who sign out or are removed.

import { beforeEach, describe, expect, it } from 'vitest'
import { dayMs, hourMs, minuteMs } from '../../../shared/base/values.ts'
import { ana, ben, right, SecretsBench, wrong } from './secretsBench.ts'

let bench: SecretsBench
beforeEach(async () => {
  bench = await SecretsBench.open()
})

describe('a one-time code', () => {
  let code: string
  beforeEach(async () => {
    await bench.device()
    code = await bench.room.issueCode(ana)
  })
  const redeem = (digits: string, person = ana, pin = '2468') =>
    bench.room.redeem('d1', person, { code: digits, pin })

  it('is eight digits, lets its person choose a PIN and signs them in, after a restart too', async () => {
    expect(code).toMatch(/^\d{8}$/)
    await bench.restart()
    expect(await redeem(code)).toEqual(right)
    expect(bench.room.signedIn('d1')).toEqual([ana])
    await bench.room.signOut('d1', ana)
    expect(await bench.room.signIn('d1', ana, '2468')).toEqual(right)
  })

  it('is good once, for ten minutes, for one person of one room', async () => {
    expect(await redeem(code, ben)).toEqual(wrong)
    expect(await redeem('00000000')).toEqual(wrong)
    const annexe = bench.ofRoom('annexe')
    const other = await annexe.pairDevice()
    expect(await annexe.redeem(other?.device ?? '', ana, { code, pin: '1' })).toEqual(wrong)
    bench.nowMs += 10 * minuteMs - 1
    expect(await redeem(code)).toEqual(right)
    expect(await redeem(code, ana, '1357')).toEqual(wrong)
    const late = await bench.room.issueCode(ana)
    bench.nowMs += 10 * minuteMs
    expect(await redeem(late)).toEqual(wrong)
    const ahead = await bench.room.issueCode(ana)
    bench.nowMs -= hourMs
    expect(await redeem(ahead)).toEqual(wrong)
  })

  it('ends when another is given to the same person', async () => {
    const another = await bench.room.issueCode(ana)
    expect(await redeem(code)).toEqual(wrong)
    expect(await redeem(another)).toEqual(right)
  })

  it('wrong twenty times unpairs the device, and each try costs a hash', async () => {
    for (let one = 1; one < 20; one += 1) expect(await redeem('11111111')).toEqual(wrong)
    expect(await redeem('11111111')).toEqual({ type: 'unpaired' })
    expect(bench.hashing.count).toBe(20)
  })

  it('opens what a forgotten or locked PIN does not', async () => {
    await redeem(code)
    for (let one = 1; one <= 5; one += 1) await bench.room.signIn('d1', ana, '0000')
    const fresh = await bench.room.issueCode(ana)
    expect(await redeem(fresh, ana, '1357')).toEqual(right)
    expect(await bench.room.signIn('d1', ana, '1357')).toEqual(right)
  })
})

describe('somebody who signed out', () => {
  it('may have done things that an outbox brings within eight days, on that device alone', async () => {
    await bench.device()
    await bench.device()
    await bench.room.setPin(ana, '1234')
    expect(bench.room.mayReport('d1', ana)).toBe(false)
    await bench.room.signIn('d1', ana, '1234')
    await bench.room.signOut('d1', ana)
    bench.nowMs += 8 * dayMs - 1
    await bench.restart()
    expect([bench.room.mayReport('d1', ana), bench.room.mayReport('d2', ana)]).toEqual([
      true,
      false,
    ])
    bench.nowMs += 1
    expect(bench.room.mayReport('d1', ana)).toBe(false)
  })

  it('because they were removed has no PIN and no code left, but what they did still comes', async () => {
    await bench.device()
    await bench.room.setPin(ana, '1234')
    await bench.room.setPin(ben, '9876')
    await bench.room.signIn('d1', ana, '1234')
    await bench.room.signIn('d1', ben, '9876')
    const code = await bench.room.issueCode(ana)
    await bench.room.forgetPerson(ana)
    await bench.restart()
    expect([bench.room.signedIn('d1'), bench.room.mayReport('d1', ana)]).toEqual([[ben], true])
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(wrong)
    expect(await bench.room.redeem('d1', ana, { code, pin: '5555' })).toEqual(wrong)
  })
})
