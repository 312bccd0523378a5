// Everything a served house consists of, opened in order and closed in reverse: the folder's lock, the
// port, secrets, rooms, the screens' door, the pages. Wiring only; what goes wrong is thrown on, with
// whatever had been opened closed again, save that one room's trouble is that room's alone. Called by
// main.ts.

import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { demoRooms } from '../demo-data/demoRooms.ts'
import { ownOrigins } from './access/origins.ts'
import { forgetRemovedPeople } from './access/removedPeople.ts'
import { realChance } from './clock/chance.ts'
import type { ClockSource } from './clock/roomClock.ts'
import { machineClock, realTimers } from './clock/timers.ts'
import { Closers } from './config/closers.ts'
import { foundRoom, type Ground, permitHolder } from './config/foundRoom.ts'
import { listen } from './config/listening.ts'
import { openEach, type Refused } from './config/openEach.ts'
import type { Printed } from './config/printed.ts'
import { listRooms, type RoomPlace, roomsMax } from './config/roomsFolder.ts'
import { scrubNowAndThen } from './config/scrubbing.ts'
import { StartFailure } from './config/startFailure.ts'
import { roomIdOf, type StartOptions } from './config/startOptions.ts'
import { makeDemoRoom } from './demo/makeDemoRoom.ts'
import { realDisk } from './disk/realDisk.ts'
import { Gateway } from './gateway/gateway.ts'
import { SocketServer } from './gateway/socketServer.ts'
import { takeRoomsLock } from './lock/roomsLock.ts'
import type { Log } from './log/log.ts'
import { openRoom } from './room/openRoom.ts'
import type { Room } from './room/room.ts'
import type { TimersPort } from './scribe/ports.ts'
import { scryptHasher } from './secrets/pinHasher.ts'
import { openSecrets, type Secrets } from './secrets/secrets.ts'
import { codeLifeMs } from './secrets/secretsFile.ts'
import { roomHealth } from './webApp/roomHealth.ts'
import { createWebApp, type RoomFace } from './webApp/webApp.ts'

export type OpenHouse = { readonly printed: Printed; readonly port: number; close(): Promise<void> }

/** Of a room made by `--new`: fourteen hours a day, as small insectivores are fed (HRB2 p. 674). */
const newRoomHours = { opensMinute: 7 * 60, closesMinute: 21 * 60 }

/** The time the house goes by: the machine's own, unless a test has another. */
export type HouseTime = { readonly clockSource: ClockSource; readonly timers: TimersPort }
const machineTime: HouseTime = { clockSource: machineClock, timers: realTimers }

export async function openHouse(
  options: StartOptions,
  log: Log,
  time: HouseTime = machineTime,
): Promise<OpenHouse> {
  const closers = new Closers()
  const ground = { disk: realDisk, chance: realChance, log, ...time, roomsDir: options.roomsDir }
  try {
    return await open(options, ground, closers)
  } catch (error) {
    await closers.close()
    throw error
  }
}

async function open(options: StartOptions, ground: Ground, closers: Closers): Promise<OpenHouse> {
  const { roomsDir, clockSource, log } = ground
  const startedAtMs = clockSource.monotonicMs()
  await realDisk.makeDir(roomsDir)
  const lock = await takeRoomsLock(roomsDir)
  closers.add(() => lock.release())
  const listening = await listen(options.port)
  const { server, port } = listening
  closers.add(() => listening.close())
  const path = join(roomsDir, 'secrets.json')
  const secrets = await openSecrets({
    ...{ disk: ground.disk, chance: ground.chance },
    ...{ path, nowMs: clockSource.wallMs, hasher: scryptHasher },
  })
  const { places, hasMadeDemo } = await placesOf(options, ground, secrets)
  const openOne = (place: RoomPlace) => openServed({ place, secrets, options }, ground, closers)
  const { rooms, refused } = await openEach(places, openOne, log)
  const sockets = new SocketServer(port, rooms.length)
  const doors = rooms.map((room) => ({ room, doorkeeper: secrets.ofRoom(room.id) }))
  const linkMs = clockSource.monotonicMs
  const gateway = new Gateway(doors, { ...ground, fanout: sockets.fanout, linkMs })
  closers.add(() => sockets.end())
  closers.add(() => gateway.stop())
  const uptimeS = () => Math.floor((clockSource.monotonicMs() - startedAtMs) / 1_000)
  const faces = [...rooms.map((room) => faceOf(room, secrets)), ...refused.map(refusedFace)]
  listening.serve(createWebApp({ clientDir: clientDir(), port, rooms: faces, log, uptimeS }))
  gateway.start()
  sockets.attach(server, gateway)
  const printed = await whatToPrint({ rooms, refused, secrets, port, hasMadeDemo })
  return { printed, port, close: () => closers.close() }
}

type ToOpen = {
  readonly place: RoomPlace
  readonly secrets: Secrets
  readonly options: StartOptions
}

async function openServed(
  { place, secrets, options }: ToOpen,
  ground: Ground,
  closers: Closers,
): Promise<Room> {
  const { log, timers } = ground
  const { room: id, dir } = place
  const { speed, isRestored } = options
  const restored = isRestored ? { isRestored } : {}
  const room = await openRoom({ ...ground, dir, room: id, speed, ...restored })
  closers.add(() => room.close())
  closers.add(forgetRemovedPeople(room, secrets.ofRoom(id), log))
  closers.add(scrubNowAndThen(room, timers, log))
  return room
}

const faceOf = (room: Room, secrets: Secrets): RoomFace => ({
  ...{ status: 'served', id: room.id, title: room.durable.board.room.title },
  devices: secrets.ofRoom(room.id),
  health: () => roomHealth(room),
})

const refusedFace = (refused: Refused): RoomFace => ({ status: 'refused', ...refused })

/** The rooms to open, after making the one that was asked for, or the demo's where there are none. */
async function placesOf(
  { newRoom, roomsDir }: StartOptions,
  ground: Ground,
  secrets: Secrets,
): Promise<{ places: readonly RoomPlace[]; hasMadeDemo: boolean }> {
  const { timeZone: zone } = Intl.DateTimeFormat().resolvedOptions()
  const before = await listRooms(realDisk, roomsDir)
  const hasMadeDemo = newRoom === null && before.length === 0
  if (before.length + (newRoom === null ? 0 : 1) > roomsMax) {
    throw new StartFailure(`One server has at most ${roomsMax} rooms; use another folder.`)
  }
  if (newRoom !== null) {
    const id = roomIdOf(newRoom) ?? ''
    const taken = [...demoRooms.map((demo) => demo.id), ...before.map(({ room }) => room)]
    if (taken.includes(id)) {
      throw new StartFailure(`There is a room ${id} already; --new needs another name.`)
    }
    const wish = { room: id, title: newRoom, zone, ...newRoomHours, first: permitHolder }
    await foundRoom(ground, wish, async () => undefined)
  } else if (hasMadeDemo) {
    for (const demo of demoRooms) {
      await makeDemoRoom(demo, ground, { secrets: secrets.ofRoom(demo.id), zone })
    }
  }
  return { places: await listRooms(realDisk, roomsDir), hasMadeDemo }
}

type ToPrint = {
  readonly rooms: readonly Room[]
  readonly refused: readonly Refused[]
  readonly secrets: Secrets
  readonly port: number
  readonly hasMadeDemo: boolean
}

async function whatToPrint(of: ToPrint): Promise<Printed> {
  const { rooms, refused, secrets, port, hasMadeDemo } = of
  const printedRooms = []
  for (const room of rooms) {
    printedRooms.push({
      id: room.id,
      title: room.durable.board.room.title,
      demoSignIns: demoRooms.find(({ id }) => id === room.id)?.signIns ?? [],
      firstCode: await firstCodeOf(room, secrets),
    })
  }
  const [origin = ''] = ownOrigins(port)
  const codeLifeMinutes = codeLifeMs / 60_000
  return { origin, rooms: printedRooms, refused, hasMadeDemo, codeLifeMinutes }
}

/** As long as nobody has a PIN, nobody could be let in but by a new code. */
async function firstCodeOf(room: Room, secrets: Secrets): Promise<string | null> {
  const ofRoom = secrets.ofRoom(room.id)
  const people = Object.values(room.durable.board.people).filter(({ isRemoved }) => !isRemoved)
  if (people.some(({ id }) => ofRoom.hasPin(id))) return null
  const first = people.find(({ role }) => role === 'permitHolder')
  return first === undefined ? null : ofRoom.issueCode(first.id)
}

/** A built server has its pages beside it; one run from its source takes those of the newest build. */
function clientDir(): string {
  const here = fileURLToPath(new URL('.', import.meta.url))
  const isBuilt = import.meta.url.endsWith('.mjs')
  return isBuilt ? join(here, '..', 'client') : join(here, '..', '.build', 'current', 'client')
}
