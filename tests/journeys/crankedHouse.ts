// A house of one invented room, in this process, whose clock a test turns: its past is told as commands
// at clock times, and its pages are the built ones in real browsers.

import { cpSync, lstatSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { prepareBuild } from '../../server/bin/launch.mjs'
import { realChance } from '../../server/clock/chance.ts'
import { foundRoom, steppedClock } from '../../server/config/foundRoom.ts'
import { realDisk } from '../../server/disk/realDisk.ts'
import { type OpenHouse, openHouse } from '../../server/openHouse.ts'
import type { Room } from '../../server/room/room.ts'
import { scryptHasher } from '../../server/secrets/pinHasher.ts'
import { openSecrets } from '../../server/secrets/secrets.ts'
import type { IncubatorId, InstantMs, PersonId, PlanId } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { type Role, type SignOff, signOffs } from '../../shared/board/constants.ts'
import type { CarePlan } from '../../shared/board/parts.ts'
import { originOf } from '../faults/serverProcess.ts'
import { quietLog } from '../server/quietLog.ts'
import { CrankedTime } from './crankedTime.ts'
import { eventsOf } from './journalEvents.ts'

export type Clock = `${number}:${number}` | `${number}:${number}:${number}`
/** A day in May, in a zone without a change of clocks, so that a clock time is an instant. */
export const at = (time: Clock): InstantMs => Date.parse(`2026-05-16T${time.padEnd(8, ':00')}Z`)

export type Stager = {
  readonly name: string
  readonly role: Role
  readonly signOffs: readonly SignOff[]
}
export type Told = { readonly at: Clock; readonly by: PersonId; readonly command: Command }
export type Stage = {
  readonly people: readonly Stager[]
  readonly plans: readonly Omit<CarePlan, 'id'>[]
  readonly incubators: number
  readonly past: readonly Told[]
  /** When its screens find it. */
  readonly now: Clock
}

export const stagePin = '2580'
export const stageRoom = 'meadow'
export const p = (n: number): PersonId => `p${n}` as PersonId
export const c = (n: number): PlanId => `c${n}` as PlanId
export const i = (n: number): IncubatorId => `i${n}` as IncubatorId

export const everyMinutes = (
  minutes: number,
  rest: Partial<Omit<CarePlan, 'id'>> = {},
): Omit<CarePlan, 'id'> => ({
  ...{ label: `every ${minutes} minutes`, technique: 'gapeSyringe', earlyPercent: 10, cap: null },
  timing: { type: 'every', intervalMs: minutes * minuteMs },
  planned: { unit: 'uL', n: 400 },
  source: 'invented for a journey',
  ...rest,
})

/** The first is the permit holder, `p1`, who puts everything on the board at six. */
const furnishing = (stage: Stage): readonly Told[] =>
  [
    ...stage.people.slice(1).map(
      ({ name, role, signOffs: offs }): Command => ({
        ...{ type: 'AddPerson', v: 1, role, signOffs: [...offs] },
        private: { name },
      }),
    ),
    ...stage.plans.map((plan): Command => ({ type: 'SetPlan', v: 1, plan })),
    ...Array.from({ length: stage.incubators }, (_, n): Command => {
      return { type: 'AddIncubator', v: 1, label: String(n + 1) }
    }),
  ].map((command) => ({ at: '06:00', by: p(1), command }))

/** A record of the very minute in which the screens come: a longer gap is asked about at a start. */
const lastWord = ({ now }: Stage): Told => ({
  ...{ at: now, by: p(1) },
  command: { type: 'IncubatorRead', v: 1, incubator: i(1), tempDeciC: 350 },
})

const aFolder = (): string => mkdtempSync(join(tmpdir(), 'cranked-'))

/** A lock is a socket, and goes with its process. */
const isKept = (path: string): boolean => !lstatSync(path).isSocket()

function openIn(folder: string, port: number, time: CrankedTime): Promise<OpenHouse> {
  const options = { roomsDir: join(folder, 'rooms'), port, newRoom: null, speed: 1 }
  return openHouse(options, quietLog, time)
}

export class CrankedHouse {
  readonly time: CrankedTime
  #folder: string
  #house: OpenHouse

  private constructor(parts: { time: CrankedTime; folder: string; house: OpenHouse }) {
    this.time = parts.time
    this.#folder = parts.folder
    this.#house = parts.house
  }

  static async open(stage: Stage): Promise<CrankedHouse> {
    await prepareBuild(new URL('../..', import.meta.url).pathname)
    const folder = aFolder()
    await makeRoom(stage, join(folder, 'rooms'))
    const time = new CrankedTime(at(stage.now))
    return new CrankedHouse({ time, folder, house: await openIn(folder, 0, time) })
  }

  get origin(): string {
    return originOf(this.#house.port)
  }

  goTo(time: Clock): void {
    this.time.goTo(at(time))
  }

  events = <Type extends Parameters<typeof eventsOf>[1]>(type: Type) =>
    eventsOf(join(this.#folder, 'rooms', stageRoom), type)

  /**
   * The server is gone from one moment to the next, and back on its port when `meanwhile` is over. What
   * it goes on from is its folder as it was that moment: nothing a server does while it closes is kept.
   */
  async strike(meanwhile: () => Promise<void>): Promise<void> {
    const { port } = this.#house
    const left = aFolder()
    cpSync(this.#folder, left, { recursive: true, filter: isKept })
    await this.#house.close()
    rmSync(this.#folder, { recursive: true })
    this.#folder = left
    try {
      await meanwhile()
    } finally {
      this.#house = await openIn(left, port, this.time)
    }
  }

  async close(): Promise<void> {
    await this.#house.close()
    rmSync(this.#folder, { recursive: true })
  }
}

async function makeRoom(stage: Stage, roomsDir: string): Promise<void> {
  await realDisk.makeDir(roomsDir)
  const clock = steppedClock(at('06:00'))
  const { timers } = new CrankedTime(at('06:00'))
  const world = { disk: realDisk, chance: realChance, log: quietLog, timers }
  const path = join(roomsDir, 'secrets.json')
  const nowMs = () => at(stage.now)
  const secrets = (await openSecrets({ ...world, path, nowMs, hasher: scryptHasher })).ofRoom(
    stageRoom,
  )
  const paired = await secrets.pairDevice()
  if (paired === null) throw new Error('the stage has no place for its own device')
  const [first] = stage.people
  if (first === undefined) throw new Error('a stage needs people')
  await foundRoom(
    { ...world, clockSource: clock.source, roomsDir },
    {
      ...{ room: stageRoom, title: 'Meadow Lane nursery', zone: 'UTC' },
      ...{ opensMinute: 6 * 60, closesMinute: 22 * 60 },
      first: { ...first, signOffs },
    },
    async (room) => {
      for (const [n, told] of [...furnishing(stage), ...stage.past, lastWord(stage)].entries()) {
        clock.goTo(at(told.at))
        await play(room, told, { device: paired.device, n: n + 1 })
      }
    },
  )
  for (const [n] of stage.people.entries()) await secrets.setPin(p(n + 1), stagePin)
}

async function play(room: Room, told: Told, { device, n }: { device: string; n: number }) {
  const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
  const { by, command: body } = told
  const outcome = await room.take({ lane: device, n, by, device, timing, body })
  if ('status' in outcome && outcome.status === 'applied' && !outcome.isSetAside) return
  throw new Error(`${body.type} at ${told.at} came to ${JSON.stringify(outcome)}`)
}
