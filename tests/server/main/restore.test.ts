// A whole house put back from a backup while a handheld knows more: the handheld takes the older board
// and brings again what it noted since, so that the room gets its lost minutes back.

import { cpSync, rmSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Session } from '../../../client/session/session.ts'
import { MemoryOutbox } from '../../../client/stores/memoryOutbox.ts'
import type { BirdId, PersonId } from '../../../shared/base/values.ts'
import { HouseOnDisk } from './houseOnDisk.ts'

const room = 'pennywren'
const jonas = 'p4' as PersonId
const bird = 'b1' as BirdId
const liveMaxMs = 30_000

let bench: HouseOnDisk
let backup: string

beforeEach(() => {
  bench = new HouseOnDisk()
  backup = `${bench.roomsDir}-backup`
})
afterEach(async () => {
  await bench.end()
  rmSync(backup, { recursive: true, force: true })
})

/** Weighs a bird and waits until the room has it. */
async function weigh(session: Session, massMg: number): Promise<void> {
  const outcome = await session.report(jonas, { type: 'Weighed', v: 1, bird, massMg })
  if (outcome.status !== 'kept') throw new Error(`the weight was ${outcome.status}`)
  expect(await outcome.answered).toMatchObject({ status: 'applied' })
}

const masses = (session: Session) =>
  session.snapshot().board?.birds[bird]?.masses.map(({ massMg }) => massMg) ?? []

/** A day on which a backup was made between two weights; the handheld's store knows both. */
async function dayWithBackup(): Promise<MemoryOutbox> {
  const store = new MemoryOutbox()
  const first = await bench.sessionOn(await bench.open(), room, store)
  expect(await first.session.signIn(jonas, '4680')).toMatchObject({ status: 'done' })
  await weigh(first.session, 11_111)
  await bench.shut()
  cpSync(bench.roomsDir, backup, { recursive: true })
  const second = await bench.sessionOn(await bench.open(), room, store)
  await weigh(second.session, 22_222)
  await bench.shut()
  rmSync(bench.roomsDir, { recursive: true })
  cpSync(backup, bench.roomsDir, { recursive: true })
  return store
}

describe('a house put back from a backup', () => {
  it('has a new life, in which a handheld that knew more gives it back what it lost', async () => {
    const store = await dayWithBackup()
    const { session } = await bench.sessionOn(await bench.open({ isRestored: true }), room, store)
    await expect.poll(() => masses(session), { timeout: liveMaxMs }).toContain(22_222)
    expect(masses(session)).toContain(11_111)
    expect(session.snapshot()).toMatchObject({ epoch: 2, pending: [], stuck: [] })
  })
})
