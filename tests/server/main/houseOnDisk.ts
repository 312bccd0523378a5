// A bench for whole houses: a rooms folder of its own, houses opened on it one after the other, and
// sessions of paired devices. Everything is real but, where a test wants it, the time.

import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect } from 'vitest'
import { realBrain } from '../../../client/session/realBrain.ts'
import { realTimers } from '../../../client/session/realTimers.ts'
import { Session } from '../../../client/session/session.ts'
import { SocketLink } from '../../../client/session/socketLink.ts'
import { MemoryOutbox } from '../../../client/stores/memoryOutbox.ts'
import { startFailureOf } from '../../../server/config/failureSentence.ts'
import type { StartOptions } from '../../../server/config/startOptions.ts'
import { type HouseTime, type OpenHouse, openHouse } from '../../../server/openHouse.ts'
import { keptLog } from '../quietLog.ts'

export class HouseOnDisk {
  readonly roomsDir = mkdtempSync(join(tmpdir(), 'house-'))
  readonly log = keptLog()
  readonly #houses: OpenHouse[] = []
  readonly #sessions: Session[] = []

  async open(options: Partial<StartOptions> = {}, time?: HouseTime): Promise<OpenHouse> {
    const house = await openHouse(this.#options(options), this.log.log, time)
    this.#houses.push(house)
    return house
  }

  async shut(): Promise<void> {
    for (const session of this.#sessions.splice(0)) session.stop()
    for (const house of this.#houses.splice(0)) await house.close()
  }

  async end(): Promise<void> {
    await this.shut()
    rmSync(this.roomsDir, { recursive: true })
  }

  /** What a start that fails says. */
  async sentenceOf(options: Partial<StartOptions> = {}): Promise<string> {
    try {
      await this.open(options)
    } catch (error) {
      const failure = startFailureOf(error, this.#options(options))
      if (failure === null) throw error
      expect(failure.exitCode).toBe(1)
      return failure.message
    }
    throw new Error('the house opened')
  }

  /** The folder of a room's one season, whichever year this is. */
  seasonDir(room: string): string {
    const dir = join(this.roomsDir, room)
    return join(dir, readdirSync(dir)[0] ?? '')
  }

  /** The days' files of a room, earliest first. */
  journals(room: string): readonly string[] {
    const season = this.seasonDir(room)
    const names = readdirSync(season).filter((name) => name.endsWith('.journal'))
    return names.sort().map((name) => join(season, name))
  }

  async pair(house: OpenHouse, room: string): Promise<string> {
    const origin = `http://127.0.0.1:${house.port}`
    const answer = await fetch(`${origin}/api/pair`, {
      ...{ method: 'POST', headers: { origin, 'content-type': 'application/json' } },
      body: JSON.stringify({ room }),
    })
    return ((await answer.json()) as { token: string }).token
  }

  /** A device of the room that is live; paired unless its store says that it is. */
  async sessionOn(house: OpenHouse, room: string, store = new MemoryOutbox()) {
    const { token } = await store.load()
    if (token === null) await store.write({ token: await this.pair(house, room) })
    const session = new Session({
      ...{ link: new SocketLink({ origin: `http://127.0.0.1:${house.port}` }), timers: realTimers },
      ...{ chance: Math.random, store, brain: realBrain, room, screen: 'hand' },
      complain: (what, error) => {
        throw new Error(what, { cause: error })
      },
    })
    this.#sessions.push(session)
    await session.start()
    await expect.poll(() => session.snapshot().canAsk, { timeout: 30_000 }).toBe(true)
    return { session, store }
  }

  #options(options: Partial<StartOptions>): StartOptions {
    return { roomsDir: this.roomsDir, port: 0, newRoom: null, speed: 1, ...options }
  }
}
