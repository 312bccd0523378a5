// PINs: who is in, how often anybody may try, and what is left of it after a restart.

import { beforeEach, describe, expect, it } from 'vitest'
import { hourMs, secondMs } from '../../../shared/base/values.ts'
import { personId } from '../../../shared/board/parts.ts'
import { ana, ben, locked, right, SecretsBench, wrong } from './secretsBench.ts'

let bench: SecretsBench
beforeEach(async () => {
  bench = await SecretsBench.open()
})

describe('a PIN', () => {
  beforeEach(async () => {
    await bench.device()
    await bench.room.setPin(ana, '1234')
  })

  it('signs its person in on that device, over restarts, until they sign out', async () => {
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
    await bench.restart()
    expect(bench.room.signedIn('d1')).toEqual([ana])
    await bench.room.signOut('d1', ana)
    await bench.restart()
    expect(bench.room.signedIn('d1')).toEqual([])
  })

  it('lets several people be in on one tablet', async () => {
    await bench.room.setPin(ben, '9876')
    await bench.room.signIn('d1', ana, '1234')
    await bench.room.signIn('d1', ben, '9876')
    expect(new Set(bench.room.signedIn('d1'))).toEqual(new Set([ana, ben]))
    await bench.room.signOut('d1', ana)
    expect(bench.room.signedIn('d1')).toEqual([ben])
  })

  it('is wrong when it is another, or of somebody who has none', async () => {
    expect(await bench.room.signIn('d1', ana, '4321')).toEqual(wrong)
    const hashes = bench.hashing.count
    expect(await bench.room.signIn('d1', ben, '1234')).toEqual(wrong)
    expect(bench.hashing.count).toBe(hashes + 1)
    expect(bench.room.signedIn('d1')).toEqual([])
    expect([bench.room.hasPin(ana), bench.room.hasPin(ben)]).toEqual([true, false])
  })

  it('is of one room: the same person number of another has none', async () => {
    const annexe = bench.ofRoom('annexe')
    const paired = await annexe.pairDevice()
    expect(await annexe.signIn(paired?.device ?? '', ana, '1234')).toEqual(wrong)
    expect(await annexe.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
    await annexe.setPin(ana, '9999')
    for (let one = 1; one <= 6; one += 1) await bench.room.signIn('d1', ana, '0000')
    expect(await annexe.signIn(paired?.device ?? '', ana, '9999')).toEqual(right)
    expect((await bench.room.signIn('d1', ana, '1234')).type).toBe('locked')
    await annexe.forgetPerson(ana)
    bench.nowMs += hourMs
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
  })

  it('is locked for 30 s after five wrong ones, doubling to 15 min, over restarts', async () => {
    for (let one = 1; one <= 4; one += 1) {
      expect(await bench.room.signIn('d1', ana, '0000')).toEqual(wrong)
    }
    for (const seconds of [30, 60, 120, 240, 480, 900, 900]) {
      expect(await bench.room.signIn('d1', ana, '0000')).toEqual(locked(seconds * secondMs))
      await bench.restart()
      bench.nowMs += seconds * secondMs - 1
      const hashes = bench.hashing.count
      expect(await bench.room.signIn('d1', ana, '1234')).toEqual(locked(1))
      expect(bench.hashing.count).toBe(hashes)
      bench.nowMs += 1
    }
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
    expect(await bench.room.signIn('d1', ana, '0000')).toEqual(wrong)
  })

  it('stays locked no longer than 15 min when somebody sets the wall clock back', async () => {
    for (let one = 1; one <= 5; one += 1) await bench.room.signIn('d1', ana, '0000')
    bench.nowMs -= hourMs
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
  })

  it('wrong twenty times running unpairs the device, whoever it was tried on', async () => {
    for (let one = 1; one < 20; one += 1) {
      expect((await bench.room.signIn('d1', personId.parse(`p${one + 10}`), '0000')).type).toBe(
        'wrong',
      )
    }
    await bench.restart()
    expect(await bench.room.signIn('d1', ana, '0000')).toEqual({ type: 'unpaired' })
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
  })

  it('right in between starts the count of twenty anew', async () => {
    await bench.room.setPin(ben, '9876')
    for (let round = 0; round < 3; round += 1) {
      for (let one = 1; one <= 19; one += 1)
        await bench.room.signIn('d1', personId.parse('p9'), '0')
      expect(await bench.room.signIn('d1', ben, '9876')).toEqual(right)
    }
  })

  it('tried many times at once is tried one at a time, and no oftener than in turn', async () => {
    const tries = Array.from({ length: 30 }, (_, one) => bench.room.signIn('d1', ana, `000${one}`))
    const answers = (await Promise.all(tries)).map(({ type }) => type)
    expect(answers.slice(0, 4)).toEqual(['wrong', 'wrong', 'wrong', 'wrong'])
    expect(answers.slice(4).every((type) => type === 'locked')).toBe(true)
    expect([bench.hashing.most, bench.hashing.count]).toEqual([1, 6])
  })

  it('beyond fifty waiting is not looked at, and whoever came is asked to wait', async () => {
    const tries = Array.from({ length: 53 }, () => bench.room.signIn('d1', ana, '1234'))
    const answers = await Promise.all(tries)
    expect(answers.slice(0, 51).every(({ type }) => type === 'right')).toBe(true)
    expect(answers.slice(51)).toEqual([locked(2_000), locked(2_000)])
  })

  it('is asked for again after 16 h, though nobody signed out', async () => {
    await bench.room.signIn('d1', ana, '1234')
    bench.nowMs += 16 * hourMs - 1
    expect(bench.room.signedIn('d1')).toEqual([ana])
    bench.nowMs += 1
    expect(bench.room.signedIn('d1')).toEqual([])
    expect(bench.room.mayReport('d1', ana)).toBe(true)
  })

  it('answers with what the disk says where it fails, and nobody is in or counted', async () => {
    bench.disk.failChanges('ENOSPC')
    await expect(bench.room.signIn('d1', ana, '1234')).rejects.toMatchObject({ code: 'ENOSPC' })
    await expect(bench.room.signIn('d1', ana, '0000')).rejects.toMatchObject({ code: 'ENOSPC' })
    expect(bench.room.signedIn('d1')).toEqual([])
    bench.disk.heal()
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
  })
})
