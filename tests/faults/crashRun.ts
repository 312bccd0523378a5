// Killed in mid-round, again and again. Six people work a room of the real server; at a moment drawn
// from chance the process is killed, the disk is read while nobody writes, the process is started anew
// on the same folder and port, and everybody comes back by themselves. What they were told is held
// against the disk each time; at the end the whole journal is read once more from its first byte.

import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import type { Choose } from '../support/fakeMedium.ts'
import { seededChoose } from '../support/seededChoose.ts'
import { Audit, type Findings } from './audit.ts'
import { Crew } from './crew.ts'
import { lookFresh } from './freshScreen.ts'
import { History } from './history.ts'
import { House } from './house.ts'
import { KillMoment, type Moment, moments } from './killMoments.ts'
import { Oracle } from './oracle.ts'
import { makeTortureRoom, type TortureRoom } from './tortureRoom.ts'

export type CrashOptions = {
  /** The folder of a finished build. */
  readonly build: string
  /** An empty folder for rooms and log. */
  readonly dir: string
  readonly rounds: number
  readonly seed: number
  readonly speed: number
}

export type CrashFindings = Findings & {
  /** Rounds that were played to their end: killed, read, and everybody back. */
  readonly rounds: number
  readonly kills: Readonly<Record<Moment, number>>
}

const startKillMostMs = 350
/** A quick room makes a record by itself now and then; not so many in a row. */
const looksMax = 10
const firstMassMg = 1_000

export async function crashRun(options: CrashOptions): Promise<CrashFindings> {
  const { build, dir, speed } = options
  const roomsDir = join(dir, 'rooms')
  const room = await makeTortureRoom(roomsDir)
  const house = await House.open({ build, roomsDir, speed, logFile: join(dir, 'server.log') })
  const run = new CrashRun(options, { room, house })
  try {
    await run.play()
  } catch (error) {
    run.audit.fail(`the run could not go on: ${error}`)
  } finally {
    run.crew.stop()
    house.strike()
    await house.isDown()
  }
  return run.findings
}

type Scene = {
  readonly room: TortureRoom
  readonly house: House
}

class CrashRun {
  readonly audit: Audit
  readonly crew: Crew
  readonly #options: CrashOptions
  readonly #scene: Scene
  readonly #choose: Choose
  readonly #oracle = new Oracle()
  readonly #kills = Object.fromEntries(moments.map((one) => [one, 0])) as Record<Moment, number>
  #kill: KillMoment | null = null
  #rounds = 0

  constructor(options: CrashOptions, scene: Scene) {
    const { room, house } = scene
    this.#options = options
    this.#scene = scene
    this.#choose = seededChoose(options.seed)
    this.audit = new Audit(room.journalDir)
    let massMg = firstMassMg
    const shared = {
      room: room.id,
      origin: house.origin,
      oracle: this.#oracle,
      freshMassMg: () => massMg++,
      heard: (passing: Parameters<KillMoment['heard']>[0]) => this.#kill?.heard(passing),
    }
    // Chance of their own, so that the kills do not depend on how far each of them gets.
    const { seed } = options
    this.crew = new Crew(
      room.people.map((person, at) => ({
        ...shared,
        ...person,
        choose: seededChoose(seed * room.people.length + at + 1),
      })),
    )
  }

  get findings(): CrashFindings {
    return { ...this.audit.findings, rounds: this.#rounds, kills: this.#kills }
  }

  async play(): Promise<void> {
    this.audit.readPast()
    must(await this.crew.begin(), 'somebody could not sign in')
    this.crew.work()
    for (let round = 0; round < this.#options.rounds; round += 1) {
      await this.#round(moments[this.#choose(moments.length)] ?? 'anyTime')
      this.#rounds += 1
    }
    this.crew.rest()
    must(await this.crew.areDrained(), 'not every outbox emptied')
    await this.#last()
    must((await this.#scene.house.end()) === 0, 'the server did not end well when asked to')
    this.audit.take(this.#oracle.drain())
    this.#reread()
  }

  async #round(moment: Moment): Promise<void> {
    const { house } = this.#scene
    await new Promise<void>((struck) => {
      this.#kill = new KillMoment(moment, this.#choose, () => {
        house.strike()
        struck()
      })
      if (moment === 'underLoad') this.crew.hurry()
    })
    this.#kills[moment] += 1
    await this.#readDead()
    await this.crew.reloadSome(this.#choose)
    if (moment === 'whileStarting') {
      house.begin()
      await setTimeout(this.#choose(startKillMostMs))
      house.strike()
      await this.#readDead()
    }
    house.begin()
    await house.serves()
    must(await this.crew.areBack(), 'somebody did not come back to the restarted server')
  }

  /** The process is gone; what it still managed to send is heard first, then the disk is read. */
  async #readDead(): Promise<void> {
    await this.#scene.house.isDown()
    must(await this.crew.areCutOff(), 'a link outlived the server')
    this.audit.take(this.#oracle.drain())
  }

  /** Everybody is done and rests: nothing is owed, and all six see the server's own board. */
  async #last(): Promise<void> {
    const { feeders } = this.crew
    for (const { name, stuckCount, complaints } of feeders) {
      if (stuckCount > 0) this.audit.fail(`${name} has ${stuckCount} reports nobody would take`)
      for (const complaint of complaints) this.audit.fail(complaint)
    }
    for (let look = 0; look < looksMax; look += 1) {
      const { house, room } = this.#scene
      const server = await lookFresh(house.origin, room.id, this.#oracle)
      must(await this.crew.areAt(server.version), 'not every screen caught up')
      // Time may have made another record meanwhile; then all of them are looked at once more.
      if (feeders.some(({ version }) => version !== server.version)) continue
      for (const { name, boardHash } of feeders) {
        if (boardHash !== server.hash) this.audit.fail(`${name} sees another board than the server`)
      }
      return
    }
    this.audit.fail('the room did not come to rest')
  }

  #reread(): void {
    const { audit } = this
    for (const key of audit.unanswered) audit.fail(`${key} was sent and never answered`)
    for (const { name, reports } of this.crew.feeders) {
      const sent = audit.reportsSentBy(name)
      if (sent !== reports) audit.fail(`${name} noted ${reports} reports and ${sent} were sent`)
    }
    const again = new History(this.#scene.room.journalDir)
    for (const flaw of again.readOn(new Set()).flaws) audit.fail(`read again: ${flaw}`)
    if (again.version !== audit.history.version)
      audit.fail('read again, the journal ends elsewhere')
    for (let version = 1; version <= again.version; version += 1) {
      if (again.recordAt(version)?.chainHash !== audit.history.recordAt(version)?.chainHash) {
        audit.fail(`read again, version ${version} is another record`)
      }
    }
    if (again.boardHashAt(again.version) !== audit.history.boardHashAt(again.version)) {
      audit.fail('folded again, the journal gives another board')
    }
  }
}

function must(isSo: boolean, otherwise: string): void {
  if (!isSo) throw new Error(otherwise)
}
