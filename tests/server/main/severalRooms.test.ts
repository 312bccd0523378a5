// Two rooms in one house: what is done in one is never seen in the other, and one that cannot be opened
// takes nothing from the one that can.

import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { printedText } from '../../../server/config/printed.ts'
import type { OpenHouse } from '../../../server/openHouse.ts'
import type { PersonId } from '../../../shared/base/values.ts'
import { HouseOnDisk } from './houseOnDisk.ts'

/** Real disks, sockets and scrypt: what takes a second alone takes many beside seven others. */
vi.setConfig({ testTimeout: 60_000 })

const first = 'p1' as PersonId
const later = 'p2' as PersonId

let bench: HouseOnDisk

beforeEach(async () => {
  bench = new HouseOnDisk()
  await bench.open({ newRoom: 'Larch' })
  await bench.shut()
})

afterEach(() => bench.end())

const codeOf = (house: OpenHouse, room: string) =>
  house.printed.rooms.find(({ id }) => id === room)?.firstCode ?? ''

/** The room's permit holder, signed in on a device of the room. */
async function holderOf(house: OpenHouse, room: string) {
  const { session } = await bench.sessionOn(house, room)
  const code = codeOf(house, room)
  expect(await session.redeem(first, { code, pin: '2222' })).toMatchObject({ status: 'done' })
  return session
}

const addIra = {
  ...{ type: 'AddPerson', v: 1, role: 'lead', signOffs: [], private: { name: 'Ira' } },
} as never

const health = async ({ port }: OpenHouse) => {
  const answer = await fetch(`http://127.0.0.1:${port}/health`)
  return (await answer.json()) as {
    readonly status: string
    readonly rooms: readonly { readonly room: string; readonly version: number }[]
  }
}

/** One byte of the room's first file is another, and no snapshot passes over it. */
function damage(room: string): string {
  const season = bench.seasonDir(room)
  for (const name of readdirSync(season)) {
    if (name.startsWith('snapshot')) rmSync(join(season, name))
  }
  const [journal = ''] = bench.journals(room)
  const bytes = readFileSync(journal)
  bytes[100] = (bytes[100] ?? 0) ^ 1
  writeFileSync(journal, bytes)
  return journal
}

describe('what is done in one room', () => {
  it('is on record there alone, and no screen of the other hears of it', async () => {
    const house = await bench.open({ newRoom: 'Alder' })
    const before = await health(house)
    expect(before.rooms.map(({ room }) => room)).toEqual(['alder', 'larch'])
    const larch = await holderOf(house, 'larch')
    const { session: alder } = await bench.sessionOn(house, 'alder')
    const heard = alder.snapshot().version
    expect(await larch.ask(first, addIra)).toMatchObject({ status: 'applied' })
    expect(larch.snapshot().board?.people[later]).toBeDefined()
    const after = await health(house)
    expect(after.rooms[0]).toEqual(before.rooms[0])
    expect(after.rooms[1]?.version).toBe((before.rooms[1]?.version ?? 0) + 1)
    expect(alder.snapshot().version).toBe(heard)
    expect(alder.snapshot().board?.people[later]).toBeUndefined()
  })

  it('needs a device, a code and a PIN of that room', async () => {
    const house = await bench.open({ newRoom: 'Alder' })
    await holderOf(house, 'larch')
    const { session: alder } = await bench.sessionOn(house, 'alder')
    expect(await alder.signIn(first, '2222')).toMatchObject({ code: 'pinWrong' })
    const code = codeOf(house, 'larch')
    expect(await alder.redeem(first, { code, pin: '3333' })).toMatchObject({ code: 'pinWrong' })
    expect(alder.snapshot().signedIn).toEqual([])
  })
})

describe('somebody added later', () => {
  it('gets a code from the permit holder, chooses a PIN with it, and it is in no log and no file', async () => {
    const house = await bench.open()
    const holder = await holderOf(house, 'larch')
    await holder.ask(first, addIra)
    const issued = await holder.issueCode(later)
    if (issued.status !== 'done') throw new Error(`no code: ${issued.status}`)
    expect(issued.lifeMs).toBe(10 * 60_000)
    const { session: own } = await bench.sessionOn(house, 'larch')
    expect(await own.issueCode(later)).toEqual({ status: 'fault', code: 'notAllowed' })
    const secret = { code: issued.code, pin: '4444' }
    expect(await own.redeem(later, secret)).toEqual({ status: 'done', signedIn: [later] })
    expect(await own.redeem(later, secret)).toMatchObject({ code: 'pinWrong' })
    const read = await holder.recentRecords(200)
    expect(read.status === 'done' && read.records.at(-1)?.version).toBe(holder.snapshot().version)
    await bench.shut()
    const season = bench.seasonDir('larch')
    const texts = [
      ...[JSON.stringify(bench.log.lines), JSON.stringify(read)],
      readFileSync(join(bench.roomsDir, 'secrets.json'), 'utf8'),
      ...readdirSync(season).map((name) => readFileSync(join(season, name), 'utf8')),
    ]
    for (const text of texts) expect(text).not.toContain(issued.code)
  })

  it('and removed again is signed in nowhere at once, on a link that ends and comes back', async () => {
    const house = await bench.open()
    const holder = await holderOf(house, 'larch')
    await holder.ask(first, addIra)
    const issued = await holder.issueCode(later)
    const code = issued.status === 'done' ? issued.code : ''
    const { session: own } = await bench.sessionOn(house, 'larch')
    await own.redeem(later, { code, pin: '4444' })
    const removal = { type: 'RemovePerson', v: 1, person: later } as const
    expect(await holder.ask(first, removal)).toMatchObject({ status: 'applied' })
    await expect.poll(() => own.snapshot().signedIn, { timeout: 30_000 }).toEqual([])
    await expect.poll(() => own.snapshot().canAsk, { timeout: 30_000 }).toBe(true)
  })
})

describe('a room that cannot be opened', () => {
  it('is named with its reason, and the other is served', async () => {
    await bench.open({ newRoom: 'Alder' })
    await bench.shut()
    const journal = damage('alder')
    const house = await bench.open()
    const why = `A file of this room is damaged, and nothing was changed: ${journal}, line 1`
    expect(printedText(house.printed)).toContain(`The room alder is not served. ${why}`)
    expect(printedText(house.printed)).toContain(`http://127.0.0.1:${house.port}/larch/wall\n`)
    expect(await health(house)).toMatchObject({
      status: 'failing',
      journal: 'failing',
      room: 'larch',
      rooms: [
        { room: 'larch', journal: 'ok' },
        { room: 'alder', journal: 'refused', why: expect.stringContaining(why) },
      ],
    })
    const page = await fetch(`http://127.0.0.1:${house.port}/alder/wall`)
    expect([page.status, await page.text()]).toEqual([503, expect.stringContaining(why)])
    const larch = await holderOf(house, 'larch')
    expect(await larch.ask(first, addIra)).toMatchObject({ status: 'applied' })
    expect(bench.log.lines.map(({ fields, what }) => [fields.room, what])).toContainEqual([
      ...['alder', 'a room could not be opened'],
    ])
  })

  it('is left as it is, and opens again when its folder is whole', async () => {
    await bench.open({ newRoom: 'Alder' })
    await bench.shut()
    const [path = ''] = bench.journals('alder')
    const whole = readFileSync(path)
    damage('alder')
    const damaged = readFileSync(path)
    await bench.open()
    await bench.shut()
    expect(readFileSync(path)).toEqual(damaged)
    writeFileSync(path, whole)
    const house = await bench.open()
    expect(house.printed.rooms.map(({ id }) => id)).toEqual(['alder', 'larch'])
    expect((await health(house)).status).toBe('ok')
  })
})
