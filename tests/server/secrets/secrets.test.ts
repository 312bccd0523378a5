// Devices, PINs and codes: who gets in, how often they may try, and what is left after a restart.

import { beforeEach, describe, expect, it } from 'vitest'
import type { DeviceBook } from '../../../server/access/pairing.ts'
import { durableLow } from '../../../server/disk/durableLow.ts'
import type { Doorkeeper } from '../../../server/gateway/ports.ts'
import type { PinHasher } from '../../../server/secrets/pinHasher.ts'
import type { RoomSecrets } from '../../../server/secrets/roomSecrets.ts'
import { openSecrets, type Secrets } from '../../../server/secrets/secrets.ts'
import { emptySecrets, parseSecrets } from '../../../server/secrets/secretsFile.ts'
import { dayMs, hourMs, minuteMs, secondMs } from '../../../shared/base/values.ts'
import { personId } from '../../../shared/board/parts.ts'
import { FakeDisk } from '../../support/fakeDisk.ts'
import { fixedChance } from '../../support/fixedChance.ts'
import { seededChoose } from '../../support/seededChoose.ts'

const path = '/rooms/secrets.json'
const [ana, ben] = [personId.parse('p1'), personId.parse('p2')]
const wrong = { type: 'wrong' }
const right = { type: 'right' }
const locked = (waitMs: number) => ({ type: 'locked', waitMs })

let disk: FakeDisk
let nowMs: number
let hashing: { running: number; most: number; count: number }
let secrets: Secrets
let room: RoomSecrets

/** As quick as can be; one that is asked twice at once would show it. */
const hasher: PinHasher = async (secret, salt) => {
  hashing.count += 1
  hashing.running += 1
  hashing.most = Math.max(hashing.most, hashing.running)
  await Promise.resolve()
  hashing.running -= 1
  return Uint8Array.from({ length: 32 }, (_, at) => (secret[at] ?? 0) ^ (salt[at % 16] ?? 0))
}

/** Each start has other randomness, as in life. */
let starts = 0
const open = (on: FakeDisk) => {
  starts += 1
  return openSecrets({ disk: on, path, nowMs: () => nowMs, chance: fixedChance(starts), hasher })
}

/** The power goes; what is on disk is opened again. */
async function restart(): Promise<void> {
  disk = disk.crash()
  secrets = await open(disk)
  room = secrets.ofRoom('nursery')
}

async function device(): Promise<string> {
  const paired = await room.pairDevice()
  if (paired === null) throw new Error('the room is full')
  return paired.device
}

beforeEach(async () => {
  disk = new FakeDisk({ choose: seededChoose(8) })
  await disk.makeDir('/rooms')
  nowMs = Date.UTC(2026, 4, 23, 9)
  hashing = { running: 0, most: 0, count: 0 }
  secrets = await open(disk)
  room = secrets.ofRoom('nursery')
})

it('is the doorkeeper and the book of devices that the edge asks for', () => {
  const asked: Doorkeeper & DeviceBook = room
  expect(asked).toBe(room)
})

describe('a device', () => {
  it('is known by its token, after a restart too, and only in its own room', async () => {
    const paired = await room.pairDevice('wall')
    await restart()
    expect(paired?.device).toBe('d1')
    expect(room.deviceOf(paired?.token ?? '')).toBe('d1')
    expect(secrets.ofRoom('annexe').deviceOf(paired?.token ?? '')).toBeNull()
    for (const other of ['', 'x', `${paired?.token}x`]) expect(room.deviceOf(other)).toBeNull()
  })

  it('has a number that is never given again', async () => {
    expect([await device(), await device()]).toEqual(['d1', 'd2'])
    await room.unpair('d2')
    await restart()
    expect(await device()).toBe('d3')
    const inAnnexe = await secrets.ofRoom('annexe').pairDevice()
    expect(inAnnexe?.device).toBe('d4')
  })

  it('is nobody once it is unpaired, which another room cannot do', async () => {
    const paired = await room.pairDevice()
    await secrets.ofRoom('annexe').unpair('d1')
    expect(room.deviceOf(paired?.token ?? '')).toBe('d1')
    await room.unpair('d1')
    expect(room.deviceOf(paired?.token ?? '')).toBeNull()
    expect(await room.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
  })

  it('finds no place beyond sixty, unless one was silent for a week', async () => {
    const first = await room.pairDevice()
    const second = await room.pairDevice()
    for (let more = 3; more <= 60; more += 1) await device()
    expect(await room.pairDevice()).toBeNull()
    nowMs += 7 * dayMs
    expect(room.deviceOf(first?.token ?? '')).toBe('d1')
    await room.setPin(ana, '1234')
    await room.signIn('d1', ana, '1234')
    expect((await room.pairDevice())?.device).toBe('d61')
    expect(room.deviceOf(second?.token ?? '')).toBeNull()
    expect(room.deviceOf(first?.token ?? '')).toBe('d1')
  })
})

describe('a PIN', () => {
  beforeEach(async () => {
    await device()
    await room.setPin(ana, '1234')
  })

  it('signs its person in on that device, over restarts, until they sign out', async () => {
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
    await restart()
    expect(room.signedIn('d1')).toEqual([ana])
    await room.signOut('d1', ana)
    await restart()
    expect(room.signedIn('d1')).toEqual([])
  })

  it('lets several people be in on one tablet', async () => {
    await room.setPin(ben, '9876')
    await room.signIn('d1', ana, '1234')
    await room.signIn('d1', ben, '9876')
    expect(new Set(room.signedIn('d1'))).toEqual(new Set([ana, ben]))
    await room.signOut('d1', ana)
    expect(room.signedIn('d1')).toEqual([ben])
  })

  it('is wrong when it is another, or of somebody who has none', async () => {
    expect(await room.signIn('d1', ana, '4321')).toEqual(wrong)
    const hashes = hashing.count
    expect(await room.signIn('d1', ben, '1234')).toEqual(wrong)
    expect(hashing.count).toBe(hashes + 1)
    expect(room.signedIn('d1')).toEqual([])
    expect([room.hasPin(ana), room.hasPin(ben)]).toEqual([true, false])
  })

  it('is of one room: the same person number of another has none', async () => {
    const annexe = secrets.ofRoom('annexe')
    const paired = await annexe.pairDevice()
    expect(await annexe.signIn(paired?.device ?? '', ana, '1234')).toEqual(wrong)
    expect(await annexe.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
    await annexe.setPin(ana, '9999')
    for (let one = 1; one <= 6; one += 1) await room.signIn('d1', ana, '0000')
    expect(await annexe.signIn(paired?.device ?? '', ana, '9999')).toEqual(right)
    expect((await room.signIn('d1', ana, '1234')).type).toBe('locked')
    await annexe.forgetPerson(ana)
    nowMs += hourMs
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
  })

  it('is locked for 30 s after five wrong ones, doubling to 15 min, over restarts', async () => {
    for (let one = 1; one <= 4; one += 1) {
      expect(await room.signIn('d1', ana, '0000')).toEqual(wrong)
    }
    for (const seconds of [30, 60, 120, 240, 480, 900, 900]) {
      expect(await room.signIn('d1', ana, '0000')).toEqual(locked(seconds * secondMs))
      await restart()
      nowMs += seconds * secondMs - 1
      const hashes = hashing.count
      expect(await room.signIn('d1', ana, '1234')).toEqual(locked(1))
      expect(hashing.count).toBe(hashes)
      nowMs += 1
    }
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
    expect(await room.signIn('d1', ana, '0000')).toEqual(wrong)
  })

  it('stays locked no longer than 15 min when somebody sets the wall clock back', async () => {
    for (let one = 1; one <= 5; one += 1) await room.signIn('d1', ana, '0000')
    nowMs -= hourMs
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
  })

  it('wrong twenty times running unpairs the device, whoever it was tried on', async () => {
    for (let one = 1; one < 20; one += 1) {
      expect((await room.signIn('d1', personId.parse(`p${one + 10}`), '0000')).type).toBe('wrong')
    }
    await restart()
    expect(await room.signIn('d1', ana, '0000')).toEqual({ type: 'unpaired' })
    expect(await room.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
  })

  it('right in between starts the count of twenty anew', async () => {
    await room.setPin(ben, '9876')
    for (let round = 0; round < 3; round += 1) {
      for (let one = 1; one <= 19; one += 1) await room.signIn('d1', personId.parse('p9'), '0')
      expect(await room.signIn('d1', ben, '9876')).toEqual(right)
    }
  })

  it('tried many times at once is tried one at a time, and no oftener than in turn', async () => {
    const tries = Array.from({ length: 30 }, (_, one) => room.signIn('d1', ana, `000${one}`))
    const answers = (await Promise.all(tries)).map(({ type }) => type)
    expect(answers.slice(0, 4)).toEqual(['wrong', 'wrong', 'wrong', 'wrong'])
    expect(answers.slice(4).every((type) => type === 'locked')).toBe(true)
    expect([hashing.most, hashing.count]).toEqual([1, 6])
  })

  it('beyond fifty waiting is not looked at, and whoever came is asked to wait', async () => {
    const tries = Array.from({ length: 53 }, () => room.signIn('d1', ana, '1234'))
    const answers = await Promise.all(tries)
    expect(answers.slice(0, 51).every(({ type }) => type === 'right')).toBe(true)
    expect(answers.slice(51)).toEqual([locked(2_000), locked(2_000)])
  })

  it('is asked for again after 16 h, though nobody signed out', async () => {
    await room.signIn('d1', ana, '1234')
    nowMs += 16 * hourMs - 1
    expect(room.signedIn('d1')).toEqual([ana])
    nowMs += 1
    expect(room.signedIn('d1')).toEqual([])
    expect(room.mayReport('d1', ana)).toBe(true)
  })

  it('answers with what the disk says where it fails, and nobody is in or counted', async () => {
    disk.failChanges('ENOSPC')
    await expect(room.signIn('d1', ana, '1234')).rejects.toMatchObject({ code: 'ENOSPC' })
    await expect(room.signIn('d1', ana, '0000')).rejects.toMatchObject({ code: 'ENOSPC' })
    expect(room.signedIn('d1')).toEqual([])
    disk.heal()
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
  })
})

describe('somebody who signed out', () => {
  it('may have done things that an outbox brings within eight days, on that device alone', async () => {
    await device()
    await device()
    await room.setPin(ana, '1234')
    expect(room.mayReport('d1', ana)).toBe(false)
    await room.signIn('d1', ana, '1234')
    await room.signOut('d1', ana)
    nowMs += 8 * dayMs - 1
    await restart()
    expect([room.mayReport('d1', ana), room.mayReport('d2', ana)]).toEqual([true, false])
    nowMs += 1
    expect(room.mayReport('d1', ana)).toBe(false)
  })

  it('because they were removed has no PIN and no code left, but what they did still comes', async () => {
    await device()
    await room.setPin(ana, '1234')
    await room.setPin(ben, '9876')
    await room.signIn('d1', ana, '1234')
    await room.signIn('d1', ben, '9876')
    const code = await room.issueCode(ana)
    await room.forgetPerson(ana)
    await restart()
    expect([room.signedIn('d1'), room.mayReport('d1', ana)]).toEqual([[ben], true])
    expect(await room.signIn('d1', ana, '1234')).toEqual(wrong)
    expect(await room.redeem('d1', ana, { code, pin: '5555' })).toEqual(wrong)
  })
})

describe('a one-time code', () => {
  let code: string
  beforeEach(async () => {
    await device()
    code = await room.issueCode(ana)
  })
  const redeem = (digits: string, person = ana, pin = '2468') =>
    room.redeem('d1', person, { code: digits, pin })

  it('is eight digits, lets its person choose a PIN and signs them in, after a restart too', async () => {
    expect(code).toMatch(/^\d{8}$/)
    await restart()
    expect(await redeem(code)).toEqual(right)
    expect(room.signedIn('d1')).toEqual([ana])
    await room.signOut('d1', ana)
    expect(await room.signIn('d1', ana, '2468')).toEqual(right)
  })

  it('is good once, for ten minutes, for one person of one room', async () => {
    expect(await redeem(code, ben)).toEqual(wrong)
    expect(await redeem('00000000')).toEqual(wrong)
    const annexe = secrets.ofRoom('annexe')
    const other = await annexe.pairDevice()
    expect(await annexe.redeem(other?.device ?? '', ana, { code, pin: '1' })).toEqual(wrong)
    nowMs += 10 * minuteMs - 1
    expect(await redeem(code)).toEqual(right)
    expect(await redeem(code, ana, '1357')).toEqual(wrong)
    const late = await room.issueCode(ana)
    nowMs += 10 * minuteMs
    expect(await redeem(late)).toEqual(wrong)
    const ahead = await room.issueCode(ana)
    nowMs -= hourMs
    expect(await redeem(ahead)).toEqual(wrong)
  })

  it('ends when another is given to the same person', async () => {
    const another = await room.issueCode(ana)
    expect(await redeem(code)).toEqual(wrong)
    expect(await redeem(another)).toEqual(right)
  })

  it('wrong twenty times unpairs the device, and each try costs a hash', async () => {
    for (let one = 1; one < 20; one += 1) expect(await redeem('11111111')).toEqual(wrong)
    expect(await redeem('11111111')).toEqual({ type: 'unpaired' })
    expect(hashing.count).toBe(20)
  })

  it('opens what a forgotten or locked PIN does not', async () => {
    await redeem(code)
    for (let one = 1; one <= 5; one += 1) await room.signIn('d1', ana, '0000')
    const fresh = await room.issueCode(ana)
    expect(await redeem(fresh, ana, '1357')).toEqual(right)
    expect(await room.signIn('d1', ana, '1357')).toEqual(right)
  })
})

describe('the file', () => {
  it('holds no token, no PIN and no code', async () => {
    const paired = await room.pairDevice()
    await room.setPin(ana, '1234567')
    const code = await room.issueCode(ana)
    const text = Buffer.from(disk.files.get(path) ?? []).toString()
    for (const secret of [paired?.token ?? '', '1234567', code]) {
      expect(secret.length).toBeGreaterThan(6)
      expect(text).not.toContain(secret)
      expect(text).not.toContain(Buffer.from(secret).toString('hex'))
    }
  })

  it('keeps its pepper, and with another one no PIN is right', async () => {
    await device()
    await room.setPin(ana, '1234')
    await restart()
    expect(await room.signIn('d1', ana, '1234')).toEqual(right)
    const file = await durableLow({ disk, path, parse: parseSecrets }, emptySecrets(''))
    await file.change((data) => ({ ...data, pepper: 'ab'.repeat(32) }))
    await restart()
    expect(await room.signIn('d1', ana, '1234')).toEqual(wrong)
  })

  it('is refused by name when a byte of it is another', async () => {
    await device()
    const bytes = Buffer.from(disk.files.get(path) ?? [])
    bytes[30] = (bytes[30] ?? 0) ^ 1
    disk.place(path, bytes)
    await expect(open(disk)).rejects.toMatchObject({ name: 'DamagedFile', file: path })
  })
})
