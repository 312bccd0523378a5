// Devices by their tokens, and what stands in the file about them.

import { beforeEach, describe, expect, it } from 'vitest'
import type { DeviceBook } from '../../../server/access/pairing.ts'
import { durableLow } from '../../../server/disk/durableLow.ts'
import type { Doorkeeper } from '../../../server/gateway/ports.ts'
import { emptySecrets, parseSecrets } from '../../../server/secrets/secretsFile.ts'
import { dayMs } from '../../../shared/base/values.ts'
import { ana, path, right, SecretsBench, wrong } from './secretsBench.ts'

let bench: SecretsBench
beforeEach(async () => {
  bench = await SecretsBench.open()
})

it('is the doorkeeper and the book of devices that the edge asks for', () => {
  const asked: Doorkeeper & DeviceBook = bench.room
  expect(asked.deviceOf('')).toBeNull()
})

describe('a device', () => {
  it('is known by its token, after a restart too, and only in its own room', async () => {
    const paired = await bench.room.pairDevice('wall')
    await bench.restart()
    expect(paired?.device).toBe('d1')
    expect(bench.room.deviceOf(paired?.token ?? '')).toBe('d1')
    expect(bench.ofRoom('annexe').deviceOf(paired?.token ?? '')).toBeNull()
    for (const other of ['', 'x', `${paired?.token}x`])
      expect(bench.room.deviceOf(other)).toBeNull()
  })

  it('has a number that is never given again', async () => {
    expect([await bench.device(), await bench.device()]).toEqual(['d1', 'd2'])
    await bench.room.unpair('d2')
    await bench.restart()
    expect(await bench.device()).toBe('d3')
    const inAnnexe = await bench.ofRoom('annexe').pairDevice()
    expect(inAnnexe?.device).toBe('d4')
  })

  it('is nobody once it is unpaired, which another room cannot do', async () => {
    const paired = await bench.room.pairDevice()
    await bench.ofRoom('annexe').unpair('d1')
    expect(bench.room.deviceOf(paired?.token ?? '')).toBe('d1')
    await bench.room.unpair('d1')
    expect(bench.room.deviceOf(paired?.token ?? '')).toBeNull()
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual({ type: 'unpaired' })
  })

  it('finds no place beyond sixty, unless one was silent for a week', async () => {
    const first = await bench.room.pairDevice()
    const second = await bench.room.pairDevice()
    for (let more = 3; more <= 60; more += 1) await bench.device()
    expect(await bench.room.pairDevice()).toBeNull()
    bench.nowMs += 7 * dayMs
    expect(bench.room.deviceOf(first?.token ?? '')).toBe('d1')
    await bench.room.setPin(ana, '1234')
    await bench.room.signIn('d1', ana, '1234')
    expect((await bench.room.pairDevice())?.device).toBe('d61')
    expect(bench.room.deviceOf(second?.token ?? '')).toBeNull()
    expect(bench.room.deviceOf(first?.token ?? '')).toBe('d1')
  })
})

describe('the file', () => {
  it('holds no token, no PIN and no code', async () => {
    const paired = await bench.room.pairDevice()
    await bench.room.setPin(ana, '1234567')
    const code = await bench.room.issueCode(ana)
    const text = Buffer.from(bench.disk.files.get(path) ?? []).toString()
    for (const secret of [paired?.token ?? '', '1234567', code]) {
      expect(secret.length).toBeGreaterThan(6)
      expect(text).not.toContain(secret)
      expect(text).not.toContain(Buffer.from(secret).toString('hex'))
    }
  })

  it('keeps its pepper, and with another one no PIN is right', async () => {
    await bench.device()
    await bench.room.setPin(ana, '1234')
    await bench.restart()
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(right)
    const file = await durableLow({ disk: bench.disk, path, parse: parseSecrets }, emptySecrets(''))
    await file.change((data) => ({ ...data, pepper: 'ab'.repeat(32) }))
    await bench.restart()
    expect(await bench.room.signIn('d1', ana, '1234')).toEqual(wrong)
  })

  it('is refused by name when a byte of it is another', async () => {
    await bench.device()
    const bytes = Buffer.from(bench.disk.files.get(path) ?? [])
    bytes[30] = (bytes[30] ?? 0) ^ 1
    bench.disk.place(path, bytes)
    await expect(bench.reopen()).rejects.toMatchObject({ name: 'DamagedFile', file: path })
  })
})
