// A whole house in this process: real folder, real port, real secrets. A device pairs itself, a person
// of the demo signs in and feeds, and what goes wrong at a start is one sentence.

import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { realBrain } from '../../../client/session/realBrain.ts'
import { realTimers } from '../../../client/session/realTimers.ts'
import { Session } from '../../../client/session/session.ts'
import { SocketLink } from '../../../client/session/socketLink.ts'
import { MemoryOutbox } from '../../../client/stores/memoryOutbox.ts'
import { demoRooms } from '../../../demo-data/demoRooms.ts'
import { startFailureOf } from '../../../server/config/failureSentence.ts'
import { printedText } from '../../../server/config/printed.ts'
import type { StartOptions } from '../../../server/config/startOptions.ts'
import { type OpenHouse, openHouse } from '../../../server/openHouse.ts'
import type { NestId, PersonId } from '../../../shared/base/values.ts'
import { keptLog } from '../quietLog.ts'

/** Real disks, sockets and scrypt: what takes a second alone takes many beside seven others. */
vi.setConfig({ testTimeout: 60_000 })

let roomsDir: string
let houses: OpenHouse[]
let sessions: Session[]

beforeEach(() => {
  roomsDir = mkdtempSync(join(tmpdir(), 'house-'))
  houses = []
  sessions = []
})

afterEach(async () => {
  for (const session of sessions) session.stop()
  for (const house of houses) await house.close()
  rmSync(roomsDir, { recursive: true })
})

const { log, lines } = keptLog()

async function open(options: Partial<StartOptions> = {}): Promise<OpenHouse> {
  const house = await openHouse({ roomsDir, port: 0, newRoom: null, speed: 1, ...options }, log)
  houses.push(house)
  return house
}

async function shut(): Promise<void> {
  for (const session of sessions.splice(0)) session.stop()
  for (const house of houses.splice(0)) await house.close()
}

async function sentenceOf(options: Partial<StartOptions> = {}): Promise<string> {
  const tried = { roomsDir, port: 0, newRoom: null, speed: 1, ...options }
  try {
    await open(options)
  } catch (error) {
    const failure = startFailureOf(error, tried)
    if (failure === null) throw error
    expect(failure.exitCode).toBe(1)
    return failure.message
  }
  throw new Error('the house opened')
}

/** The demo's one season, whichever year this is. */
function seasonDir(): string {
  const room = join(roomsDir, 'pennywren')
  return join(room, readdirSync(room)[0] ?? '')
}

async function pair(house: OpenHouse, room: string): Promise<string> {
  const origin = `http://127.0.0.1:${house.port}`
  const answer = await fetch(`${origin}/api/pair`, {
    ...{ method: 'POST', headers: { origin, 'content-type': 'application/json' } },
    body: JSON.stringify({ room }),
  })
  return ((await answer.json()) as { token: string }).token
}

async function sessionOn(house: OpenHouse, room: string, store = new MemoryOutbox()) {
  if ((await store.load()).token === null) await store.write({ token: await pair(house, room) })
  const session = new Session({
    ...{ link: new SocketLink({ origin: `http://127.0.0.1:${house.port}` }), timers: realTimers },
    ...{ chance: Math.random, store, brain: realBrain, room, screen: 'hand' },
    complain: (what, error) => {
      throw new Error(what, { cause: error })
    },
  })
  sessions.push(session)
  await session.start()
  await expect.poll(() => session.snapshot().canAsk, { timeout: 30_000 }).toBe(true)
  return { session, store }
}

const jonas = 'p4' as PersonId
/** L, two robins that have just come due. */
const claim = { type: 'ClaimNest', v: 1, nest: 'n11' as NestId } as const

describe('a house in an empty folder', () => {
  it('makes the demo, says so once, and tells how to sign in', async () => {
    const house = await open()
    const text = printedText(house.printed)
    expect(text).toContain('the demo rooms were made')
    expect(text).toContain(`http://127.0.0.1:${house.port}/pennywren/wall`)
    expect(text).toContain(`http://127.0.0.1:${house.port}/pennywren/hand`)
    expect(text).toContain('Jonas    PIN 4680  volunteer')
    expect(text).toContain('Nobody outside the room is ever called')
    await shut()
    const again = printedText((await open()).printed)
    expect(again).not.toContain('was made')
    expect(again).toContain('Jonas    PIN 4680  volunteer')
  })

  it('is healthy, and its clock has not jumped', async () => {
    const { port } = await open()
    const answer = await fetch(`http://127.0.0.1:${port}/health`)
    const journal = { status: 'ok', room: 'pennywren', epoch: 1, journal: 'ok', damaged: [] }
    expect([answer.status, await answer.json()]).toMatchObject([200, journal])
  })

  it('lets a person of the demo sign in, claim and record, and knows it all after a restart', async () => {
    const house = await open()
    const { session, store } = await sessionOn(house, 'pennywren')
    expect(session.snapshot().house).toEqual([])
    expect(await session.signIn(jonas, '0000')).toMatchObject({ status: 'fault', code: 'pinWrong' })
    expect(await session.signIn(jonas, '4680')).toEqual({ status: 'done', signedIn: [jonas] })
    const claimed = await session.ask(jonas, claim)
    expect(claimed).toMatchObject({ status: 'applied' })
    const { board } = session.snapshot()
    const hands = board?.nests[claim.nest]?.hands
    expect(hands).toMatchObject({ type: 'held', person: jonas })
    await shut()
    const later = await sessionOn(await open(), 'pennywren', store)
    expect(later.session.snapshot().signedIn).toEqual([jonas])
    expect(later.session.snapshot().board?.nests[claim.nest]?.hands).toEqual(hands)
    const weighed = { type: 'Weighed', v: 1, bird: 'b20' as never, massMg: 7_100 } as const
    const kept = await later.session.report(jonas, weighed)
    expect(kept.status === 'kept' && (await kept.answered)).toMatchObject({ status: 'applied' })
  })

  it('keeps no PIN of somebody who was removed', async () => {
    const { session } = await sessionOn(await open(), 'pennywren')
    const withPin = (): unknown[] =>
      JSON.parse(readFileSync(join(roomsDir, 'secrets.json'), 'utf8'))
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
    const house = await open()
    const { session, store } = await sessionOn(house, 'pennywren')
    await session.signIn(jonas, '4680')
    await session.ask(jonas, claim)
    await shut()
    const season = seasonDir()
    const { token } = await store.load()
    const told = JSON.stringify(lines)
    const files = readdirSync(season).filter((name) => name !== 'private.ndjson')
    expect(files.length).toBeGreaterThanOrEqual(2)
    for (const text of [told, ...files.map((name) => readFileSync(join(season, name), 'utf8'))]) {
      for (const secret of ['Jonas', 'tea towel', token ?? 'no token']) {
        expect(text.includes(secret)).toBe(false)
      }
      // Four figures by themselves: within a hash or an instant they are bound to stand somewhere.
      expect(text).not.toMatch(/(?<![0-9a-f])4680(?![0-9a-f])/)
    }
    expect(readFileSync(join(roomsDir, 'secrets.json'), 'utf8')).not.toContain(token)
  })
})

describe('a new room', () => {
  it('opens with one permit holder, whose code chooses a PIN once', async () => {
    const house = await open({ newRoom: 'Élan House' })
    expect(house.printed.rooms.map(({ id }) => id)).toEqual(['elan-house'])
    const code = house.printed.rooms[0]?.firstCode ?? ''
    expect(printedText(house.printed)).toContain(code)
    const { session } = await sessionOn(house, 'elan-house')
    const first = 'p1' as PersonId
    expect(await session.redeem(first, { code: '000000', pin: '2222' })).toMatchObject({
      code: 'pinWrong',
    })
    expect(await session.redeem(first, { code, pin: '2222' })).toMatchObject({ status: 'done' })
    const add = { type: 'AddPerson', v: 1, role: 'lead', signOffs: [], private: { name: 'Ira' } }
    expect(await session.ask(first, add as never)).toMatchObject({ status: 'applied' })
    await shut()
    expect((await open()).printed.rooms[0]?.firstCode).toBeNull()
  })

  it('has another code at every start until somebody has a PIN', async () => {
    const first = (await open({ newRoom: 'Larch' })).printed.rooms[0]?.firstCode
    await shut()
    const second = (await open()).printed.rooms[0]?.firstCode
    expect(second).toMatch(/^\d{6,10}$/)
    expect(second).not.toBe(first)
  })

  it('needs a name no room has', async () => {
    await open({ newRoom: 'Larch' })
    await shut()
    const taken = 'There is a room larch already; --new needs another name.'
    expect(await sentenceOf({ newRoom: 'Larch' })).toBe(taken)
    expect(await sentenceOf({ newRoom: 'Pennywren' })).toContain('needs another name')
  })

  it('stands beside the others, each under its own address', async () => {
    await open({ newRoom: 'Larch' })
    await shut()
    const { port, printed } = await open({ newRoom: 'Alder' })
    expect(printed.rooms.map(({ id }) => id)).toEqual(['alder', 'larch'])
    const wall = await fetch(`http://127.0.0.1:${port}/wall`)
    expect([wall.status, await wall.text()]).toMatchObject([
      404,
      expect.stringMatching(/^Which room/),
    ])
  })
})

describe('a house that cannot open', () => {
  it('says that the folder is in use', async () => {
    await open()
    expect(await sentenceOf()).toMatch(/^The rooms folder .* is in use by another Broodboard/)
  })

  it('says that the port is in use, and leaves no room and no lock behind', async () => {
    const other = createServer()
    await new Promise<void>((listening) => other.listen(0, '127.0.0.1', listening))
    const { port } = other.address() as { port: number }
    expect(await sentenceOf({ port })).toBe(
      `Port ${port} is in use by another program; choose another with --port, or 0 for any free one.`,
    )
    other.close()
    expect(readdirSync(roomsDir)).toEqual([])
  })

  it('says that the folder cannot be written', async () => {
    const file = join(roomsDir, 'file')
    writeFileSync(file, '')
    expect(await sentenceOf({ roomsDir: join(file, 'rooms') })).toContain('cannot be made')
    // A kernel's file system says that the folder above is missing, and means that nothing is made here.
    expect(await sentenceOf({ roomsDir: '/proc/rooms' })).toMatch(
      /\/proc\/rooms cannot be (made|written)/,
    )
    expect(await sentenceOf({ roomsDir: '/sys/rooms' })).toMatch(
      /^The rooms folder \/sys\/rooms cannot be written/,
    )
  })

  it('names the damaged file and changes nothing', async () => {
    await open()
    await shut()
    const season = seasonDir()
    for (const name of readdirSync(season)) {
      if (name.startsWith('snapshot')) rmSync(join(season, name))
    }
    const journal = join(
      season,
      readdirSync(season).find((name) => name.endsWith('.journal')) ?? '',
    )
    const bytes = readFileSync(journal)
    bytes[100] = (bytes[100] ?? 0) ^ 1
    writeFileSync(journal, bytes)
    const sentence = await sentenceOf()
    expect(sentence).toContain('is damaged, and nothing was changed')
    expect(sentence).toContain(`${journal}, line 1`)
    expect(readFileSync(journal)).toEqual(bytes)
  })
})
