// A small room for rough use, founded by the server's own code before the server is started: eight
// nests, where six people get in each other's way, and plans with the shortest interval there is. All
// of it invented. Torture and bench both work in it.

import { join } from 'node:path'
import { realChance } from '../../server/clock/chance.ts'
import { machineClock, realTimers } from '../../server/clock/timers.ts'
import { foundRoom, type Ground, permitHolder } from '../../server/config/foundRoom.ts'
import { placeOf, seasonAt } from '../../server/config/roomsFolder.ts'
import { realDisk } from '../../server/disk/realDisk.ts'
import type { Log } from '../../server/log/log.ts'
import type { Room } from '../../server/room/room.ts'
import { scryptHasher } from '../../server/secrets/pinHasher.ts'
import { openSecrets } from '../../server/secrets/secrets.ts'
import { minuteMs, type NestId, type PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import { incubatorOf, nestOf, personOf, planOf } from '../support/roomBuilder.ts'

export type TorturePerson = {
  readonly person: PersonId
  readonly pin: string
  /** Of the device that is this person's alone. */
  readonly token: string
}

export type TortureRoom = {
  readonly id: string
  readonly journalDir: string
  readonly people: readonly TorturePerson[]
  readonly nests: readonly NestId[]
}

const id = 'thornhedge'
const zone = 'UTC'
const broodSizes = [4, 3, 1, 5, 2, 3, 4, 2] as const
const names = ['Aino', 'Bram', 'Chidi', 'Dunja', 'Emre', 'Freya'] as const

const orders: readonly Command[] = [
  ...names.map(
    (name, at): Command => ({
      type: 'AddPerson',
      v: 1,
      role: at === 0 ? 'lead' : 'volunteer',
      signOffs: ['gapeSyringe', 'fluids'],
      private: { name },
    }),
  ),
  { type: 'AddIncubator', v: 1, label: '1' },
  { type: 'AddIncubator', v: 1, label: '2' },
  {
    type: 'SetPlan',
    v: 1,
    plan: {
      label: 'Every five minutes',
      technique: 'gapeSyringe',
      timing: { type: 'every', intervalMs: 5 * minuteMs },
      earlyPercent: 50,
      planned: { unit: 'uL', n: 300 },
      cap: null,
      source: 'invented for tests',
    },
  },
  ...broodSizes.map(
    (birds, at): Command => ({
      type: 'AdmitBrood',
      v: 1,
      label: String.fromCharCode('A'.charCodeAt(0) + at),
      incubator: incubatorOf(1 + (at % 2)),
      quarantined: false,
      birds: Array.from({ length: birds }, () => ({
        band: null,
        species: 'HOFI',
        plan: planOf(1),
      })),
    }),
  ),
]

/** Nothing is logged but what must not happen, which throws. */
const log: Log = {
  info: () => undefined,
  warn: () => undefined,
  error: ({ err }, what) => {
    throw new Error(what, { cause: err })
  },
}

/** Founds the room in `roomsDir`, which must be empty, with a PIN and a paired device for each person. */
export async function makeTortureRoom(roomsDir: string): Promise<TortureRoom> {
  await realDisk.makeDir(roomsDir)
  const world = { disk: realDisk, timers: realTimers, chance: realChance, log }
  const ground: Ground = { ...world, roomsDir, clockSource: machineClock }
  const { wallMs: nowMs } = machineClock
  const path = join(roomsDir, 'secrets.json')
  const secrets = (await openSecrets({ ...world, path, nowMs, hasher: scryptHasher })).ofRoom(id)
  const paired = async () => {
    const device = await secrets.pairDevice()
    if (device === null) throw new Error('the room has no place for a device')
    return device
  }
  const first = { ...permitHolder, name: 'Ottilie' }
  const wish = { room: id, title: 'Thornhedge', zone, opensMinute: 0, closesMinute: 1440, first }
  const { device } = await paired()
  await foundRoom(ground, wish, (room) => furnish(room, device))
  const people: TorturePerson[] = []
  for (const at of names.keys()) {
    const person = personOf(at + 2)
    const pin = String(2_000 + at)
    await secrets.setPin(person, pin)
    people.push({ person, pin, token: (await paired()).token })
  }
  const journalDir = placeOf(roomsDir, id, seasonAt(nowMs(), zone)).dir
  return { id, journalDir, people, nests: broodSizes.map((_, at) => nestOf(at + 1)) }
}

async function furnish(room: Room, device: string): Promise<void> {
  for (const [at, body] of orders.entries()) {
    const timing = { notedAgoMs: 0, heardAtMs: room.nowMs() }
    const about = { lane: device, n: at + 1, by: personOf(1), device, timing }
    const outcome = await room.take({ ...about, body })
    if ('status' in outcome && outcome.status === 'applied') continue
    throw new Error(`${body.type} came to ${JSON.stringify(outcome)}`)
  }
}
