// What a device may ask beside commands and PINs: a one-time code for somebody else, and the room's
// last records. Each is told to the screen that asked and to no other.

import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { recordsAskedMax } from '../../../shared/wire/limits.ts'
import { codeFor, finn, House, mara, stranger, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House
let desk: RawScreen

async function screenOf(kind: string, device: string): Promise<RawScreen> {
  const screen = await house.screen()
  screen.send(helloOf(kind, { token: token(device) }))
  await screen.next('welcome')
  return screen
}

beforeEach(async () => {
  house = await House.open()
  house.doorkeeper.present.set('d1', [mara])
  desk = await screenOf('desk', 'd1')
})

// Closing also throws when anything was logged, and so when a code was.
afterEach(() => house.close())

const fault = (code: string) => ({ type: 'fault', code })
const issueCode = (person: string) => ({ type: 'issueCode', person })

describe('a one-time code', () => {
  it('is told to the screen on which a permit holder asked, and to no other of the device', async () => {
    const second = await screenOf('desk', 'd1')
    expect(await desk.ask(issueCode(finn))).toEqual({
      ...{ type: 'code', person: finn, code: codeFor(finn), lifeMs: 600_000 },
    })
    expect(await second.ask({ type: 'recentRecords', count: 1 })).toMatchObject({ type: 'records' })
    expect(second.frames.some(({ type }) => type === 'code')).toBe(false)
  })

  it('is on no board, in no record and in no file of the room', async () => {
    const before = house.standing
    await desk.ask(issueCode(finn))
    expect(house.standing).toEqual(before)
    expect(JSON.stringify(house.room.lastRecords(500))).not.toContain(codeFor(finn))
    for (const bytes of house.disk.files.values()) {
      expect(Buffer.from(bytes).toString()).not.toContain(codeFor(finn))
    }
  })

  it('is not for anybody else to ask for', async () => {
    house.doorkeeper.present.set('d1', [finn])
    expect(await desk.ask(issueCode(mara))).toEqual(fault('notAllowed'))
    house.doorkeeper.present.set('d1', [])
    expect(await desk.ask(issueCode(finn))).toEqual(fault('notAllowed'))
    expect(house.doorkeeper.codes).toEqual([])
  })

  it('is not for a permit holder who was removed, whatever the secrets still say', async () => {
    await house.room.record(() => [{ type: 'PersonRemoved', v: 1, person: mara }])
    const back = await screenOf('desk', 'd1')
    expect(await back.ask(issueCode(finn))).toEqual(fault('notAllowed'))
    expect(house.doorkeeper.codes).toEqual([])
  })

  it('is for people of the room alone', async () => {
    expect(await desk.ask(issueCode(stranger))).toEqual(fault('personUnknown'))
    await house.room.record(() => [{ type: 'PersonRemoved', v: 1, person: finn }])
    expect(await desk.ask(issueCode(finn))).toEqual(fault('personUnknown'))
    expect(house.doorkeeper.codes).toEqual([])
  })

  it('is no wall’s to ask for', async () => {
    const wall = await screenOf('wall', 'd1')
    expect(await wall.ask(issueCode(finn))).toEqual(fault('readOnlyScreen'))
  })
})

describe('the last records', () => {
  const weigh = (massMg: number) =>
    house.room.record(({ nowMs }) => [
      { type: 'Weighed', v: 1, bird: 'b1' as never, by: mara, atMs: nowMs, massMg },
    ])

  it('are as many as were asked for, earliest first, as the screens got them', async () => {
    for (const massMg of [9_000, 9_100, 9_200]) await weigh(massMg)
    const told = [await desk.next('record'), await desk.next('record'), await desk.next('record')]
    const asked = await desk.ask({ type: 'recentRecords', count: 2 })
    expect(asked).toEqual({ type: 'records', records: told.slice(1) })
  })

  it('are all there are where more were asked for, also after a restart', async () => {
    await weigh(9_000)
    await house.restart()
    const later = await screenOf('desk', 'd1')
    const reply = await later.ask({ type: 'recentRecords', count: recordsAskedMax })
    const { version } = house.room.durable
    expect(reply.type === 'records' && reply.records.map((record) => record.version)).toEqual(
      Array.from({ length: version }, (_, at) => at + 1),
    )
  })

  it.each([0, recordsAskedMax + 1, 1.5])('are not to be had %s at a time', async (count) => {
    expect(await desk.ask({ type: 'recentRecords', count })).toEqual(fault('malformed'))
  })
})
