// A whole house in this process: real folder, real port, real secrets. A device pairs itself, a person
// of the demo signs in and feeds, and what goes wrong at a start is one sentence.

import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { demoRooms } from '../../../demo-data/demoRooms.ts'
import { printedText } from '../../../server/config/printed.ts'
import type { NestId, PersonId } from '../../../shared/base/values.ts'
import { HouseOnDisk } from './houseOnDisk.ts'

/** Real disks, sockets and scrypt: what takes a second alone takes many beside seven others. */
vi.setConfig({ testTimeout: 60_000 })

let bench: HouseOnDisk

beforeEach(() => {
  bench = new HouseOnDisk()
})

afterEach(() => bench.end())

const jonas = 'p4' as PersonId
/** L, two robins that have just come due. */
const claim = { type: 'ClaimNest', v: 1, nest: 'n11' as NestId } as const

describe('a house in an empty folder', () => {
  it('makes the demo, says so once, and tells how to sign in', async () => {
    const house = await bench.open()
    const text = printedText(house.printed)
    expect(text).toContain('the demo rooms were made')
    for (const { id } of demoRooms) {
      for (const screen of ['wall', 'hand', 'desk']) {
        expect(text).toContain(`http://127.0.0.1:${house.port}/${id}/${screen}\n`)
      }
    }
    expect(text).toContain('Jonas    PIN 4680  volunteer')
    expect(text).toContain('Nobody outside the room is ever called')
    await bench.shut()
    const again = printedText((await bench.open()).printed)
    expect(again).not.toContain('was made')
    expect(again).toContain('Jonas    PIN 4680  volunteer')
  })
})

describe('a house of the demo', () => {
  let made: HouseOnDisk

  // Made once: hours of a room are played, and every person's PIN is hashed, slowly on purpose.
  beforeAll(async () => {
    made = new HouseOnDisk()
    await made.open()
    await made.shut()
  })

  afterAll(() => made.end())

  beforeEach(() => cpSync(made.roomsDir, bench.roomsDir, { recursive: true }))

  it('is healthy, and its clock has not jumped', async () => {
    const { port } = await bench.open()
    const answer = await fetch(`http://127.0.0.1:${port}/health`)
    const journal = { status: 'ok', room: 'pennywren', epoch: 1, journal: 'ok', damaged: [] }
    expect([answer.status, await answer.json()]).toMatchObject([200, journal])
  })

  it('lets a person of the demo sign in, claim and record, and knows it all after a restart', async () => {
    const house = await bench.open()
    const { session, store } = await bench.sessionOn(house, 'pennywren')
    expect(session.snapshot().house).toEqual([])
    expect(await session.signIn(jonas, '0000')).toMatchObject({ status: 'fault', code: 'pinWrong' })
    expect(await session.signIn(jonas, '4680')).toEqual({ status: 'done', signedIn: [jonas] })
    const claimed = await session.ask(jonas, claim)
    expect(claimed).toMatchObject({ status: 'applied' })
    const { board } = session.snapshot()
    const hands = board?.nests[claim.nest]?.hands
    expect(hands).toMatchObject({ type: 'held', person: jonas })
    await bench.shut()
    const later = await bench.sessionOn(await bench.open(), 'pennywren', store)
    expect(later.session.snapshot().signedIn).toEqual([jonas])
    expect(later.session.snapshot().board?.nests[claim.nest]?.hands).toEqual(hands)
    const weighed = { type: 'Weighed', v: 1, bird: 'b20' as never, massMg: 7_100 } as const
    const kept = await later.session.report(jonas, weighed)
    expect(kept.status === 'kept' && (await kept.answered)).toMatchObject({ status: 'applied' })
  })

  it('keeps no PIN of somebody who was removed', async () => {
    const { session } = await bench.sessionOn(await bench.open(), 'pennywren')
    const withPin = (): unknown[] =>
      JSON.parse(readFileSync(join(bench.roomsDir, 'secrets.json'), 'utf8'))
        .pins.filter(({ room }: { room: string }) => room === 'pennywren')
        .map(({ person }: { person: string }) => person)
    expect(withPin()).toContain(jonas)
    const everybody = demoRooms.find(({ id }) => id === 'pennywren')?.signIns ?? []
    const [founder] = everybody
    await session.signIn(founder?.person as PersonId, founder?.pin ?? '')
    const removal = { type: 'RemovePerson', v: 1, person: jonas } as const
    expect(await session.ask(founder?.person as PersonId, removal)).toMatchObject({
      status: 'applied',
    })
    await expect.poll(withPin, { timeout: 30_000 }).not.toContain(jonas)
    expect(withPin()).toHaveLength(everybody.length - 1)
  })

  it('has written no name, note, PIN or token into its log, its journal or its snapshots', async () => {
    const house = await bench.open()
    const { session, store } = await bench.sessionOn(house, 'pennywren')
    await session.signIn(jonas, '4680')
    await session.ask(jonas, claim)
    await bench.shut()
    const season = bench.seasonDir('pennywren')
    const { token } = await store.load()
    const told = JSON.stringify(bench.log.lines)
    const files = readdirSync(season).filter((name) => name !== 'private.ndjson')
    expect(files.length).toBeGreaterThanOrEqual(2)
    for (const text of [told, ...files.map((name) => readFileSync(join(season, name), 'utf8'))]) {
      for (const secret of ['Jonas', 'tea towel', token ?? 'no token']) {
        expect(text.includes(secret)).toBe(false)
      }
      // Four figures by themselves: within a hash or an instant they are bound to stand somewhere.
      expect(text).not.toMatch(/(?<![0-9a-f])4680(?![0-9a-f])/)
    }
    expect(readFileSync(join(bench.roomsDir, 'secrets.json'), 'utf8')).not.toContain(token)
  })
})

describe('a new room', () => {
  it('opens with one permit holder, whose code chooses a PIN once', async () => {
    const house = await bench.open({ newRoom: 'Élan House' })
    expect(house.printed.rooms.map(({ id }) => id)).toEqual(['elan-house'])
    const code = house.printed.rooms[0]?.firstCode ?? ''
    expect(printedText(house.printed)).toContain(code)
    const { session } = await bench.sessionOn(house, 'elan-house')
    const first = 'p1' as PersonId
    expect(await session.redeem(first, { code: '000000', pin: '2222' })).toMatchObject({
      code: 'pinWrong',
    })
    expect(await session.redeem(first, { code, pin: '2222' })).toMatchObject({ status: 'done' })
    const add = { type: 'AddPerson', v: 1, role: 'lead', signOffs: [], private: { name: 'Ira' } }
    expect(await session.ask(first, add as never)).toMatchObject({ status: 'applied' })
    await bench.shut()
    expect((await bench.open()).printed.rooms[0]?.firstCode).toBeNull()
  })

  it('has another code at every start until somebody has a PIN', async () => {
    const first = (await bench.open({ newRoom: 'Larch' })).printed.rooms[0]?.firstCode
    await bench.shut()
    const second = (await bench.open()).printed.rooms[0]?.firstCode
    expect(second).toMatch(/^\d{6,10}$/)
    expect(second).not.toBe(first)
  })

  it('needs a name no room has', async () => {
    await bench.open({ newRoom: 'Larch' })
    await bench.shut()
    const taken = 'There is a room larch already; --new needs another name.'
    expect(await bench.sentenceOf({ newRoom: 'Larch' })).toBe(taken)
    expect(await bench.sentenceOf({ newRoom: 'Pennywren' })).toContain('needs another name')
  })

  it('stands beside the others, each under its own address', async () => {
    await bench.open({ newRoom: 'Larch' })
    await bench.shut()
    const { port, printed } = await bench.open({ newRoom: 'Alder' })
    expect(printed.rooms.map(({ id }) => id)).toEqual(['alder', 'larch'])
    const asked = await fetch(`http://127.0.0.1:${port}/api/room`)
    expect(await asked.json()).toEqual({
      rooms: [
        { id: 'alder', title: 'Alder' },
        { id: 'larch', title: 'Larch' },
      ],
    })
  })
})

describe('a house that cannot open', () => {
  it('says that the folder is in use', async () => {
    await bench.open({ newRoom: 'Larch' })
    expect(await bench.sentenceOf()).toMatch(/^The rooms folder .* is in use by another Broodboard/)
  })

  it('says that the port is in use, and leaves no room and no lock behind', async () => {
    const other = createServer()
    await new Promise<void>((listening) => other.listen(0, '127.0.0.1', listening))
    const { port } = other.address() as { port: number }
    expect(await bench.sentenceOf({ port })).toBe(
      `Port ${port} is in use by another program; choose another with --port, or 0 for any free one.`,
    )
    other.close()
    expect(readdirSync(bench.roomsDir)).toEqual([])
  })

  it('says that the folder cannot be written', async () => {
    const file = join(bench.roomsDir, 'file')
    writeFileSync(file, '')
    expect(await bench.sentenceOf({ roomsDir: join(file, 'rooms') })).toContain('cannot be made')
    // A kernel's file system says that the folder above is missing, and means that nothing is made here.
    expect(await bench.sentenceOf({ roomsDir: '/proc/rooms' })).toMatch(
      /\/proc\/rooms cannot be (made|written)/,
    )
    expect(await bench.sentenceOf({ roomsDir: '/sys/rooms' })).toMatch(
      /^The rooms folder \/sys\/rooms cannot be written/,
    )
  })

  it('has more rooms than one server may, and none is made beyond them', async () => {
    for (let one = 1; one <= 6; one += 1) {
      mkdirSync(join(bench.roomsDir, `room-${one}`, '2026'), { recursive: true })
    }
    const sentence = 'One server has at most 6 rooms; use another folder.'
    expect(await bench.sentenceOf({ newRoom: 'Larch' })).toBe(sentence)
    expect(readdirSync(bench.roomsDir)).not.toContain('larch')
  })

  it('names the damaged file of its only room and changes nothing', async () => {
    await bench.open({ newRoom: 'Larch' })
    await bench.shut()
    const season = bench.seasonDir('larch')
    for (const name of readdirSync(season)) {
      if (name.startsWith('snapshot')) rmSync(join(season, name))
    }
    const [journal = ''] = bench.journals('larch')
    const bytes = readFileSync(journal)
    bytes[100] = (bytes[100] ?? 0) ^ 1
    writeFileSync(journal, bytes)
    const sentence = await bench.sentenceOf()
    expect(sentence).toContain('is damaged, and nothing was changed')
    expect(sentence).toContain(`${journal}, line 1`)
    expect(readFileSync(journal)).toEqual(bytes)
  })
})
