// A whole house for the gateway's tests: a real room on a disk in memory, the real gateway, real
// sockets on loopback. Its clocks stand still unless a test moves them; only PINs and tokens are faked,
// because hashing them is slow on purpose.

import { type Listening, listen } from '../../../server/config/listening.ts'
import { Gateway } from '../../../server/gateway/gateway.ts'
import type { Doorkeeper, PinOutcome } from '../../../server/gateway/ports.ts'
import { SocketServer } from '../../../server/gateway/socketServer.ts'
import { createRoom, openRoom } from '../../../server/room/openRoom.ts'
import type { Room } from '../../../server/room/room.ts'
import { minuteMs, type PersonId } from '../../../shared/base/values.ts'
import { hashBoard } from '../../../shared/board/boardHash.ts'
import type { RoomEvent } from '../../../shared/board/events.ts'
import { planId } from '../../../shared/board/parts.ts'
import { type DiskCall, FakeDisk } from '../../support/fakeDisk.ts'
import { FakeTimers } from '../../support/fakeTimers.ts'
import { fixedChance } from '../../support/fixedChance.ts'
import { seededChoose } from '../../support/seededChoose.ts'
import { keptLog } from '../quietLog.ts'
import { RawScreen } from './rawScreen.ts'

export const mara = 'p1' as PersonId
export const finn = 'p2' as PersonId
/** Nobody's id yet. */
export const stranger = 'p9' as PersonId
export const token = (device: string) => device.padEnd(24, 'x')

/** Eight digits that stand nowhere else. */
export const codeFor = (person: PersonId) => `7071737${person.slice(1)}`

/** Devices d1 to d9 exist; who is signed in where is written down by the test. */
export class FakeDoorkeeper implements Doorkeeper {
  readonly present = new Map<string, PersonId[]>()
  readonly left = new Map<string, PersonId[]>()
  pinOutcome: PinOutcome = { type: 'right' }
  /** Devices that are no longer the room's. */
  readonly unpaired = new Set<string>()
  readonly codeLifeMs = 600_000
  readonly codes: PersonId[] = []
  /** Set to hold a PIN's check until it is called. */
  holdPins: Promise<void> | null = null

  deviceOf(given: string): string | null {
    const device = given.slice(0, 2)
    return /^d[1-9]$/.test(device) && given === token(device) ? device : null
  }

  isStillPaired(device: string): boolean {
    return !this.unpaired.has(device)
  }

  signedIn(device: string): readonly PersonId[] {
    return this.present.get(device) ?? []
  }

  mayReport(device: string, person: PersonId): boolean {
    return this.signedIn(device).includes(person) || !!this.left.get(device)?.includes(person)
  }

  async signIn(device: string, person: PersonId): Promise<PinOutcome> {
    await this.holdPins
    if (this.pinOutcome.type === 'right')
      this.present.set(device, [...this.signedIn(device), person])
    return this.pinOutcome
  }

  redeem(device: string, person: PersonId): Promise<PinOutcome> {
    return this.signIn(device, person)
  }

  async issueCode(person: PersonId): Promise<string> {
    this.codes.push(person)
    return codeFor(person)
  }

  async signOut(device: string, person: PersonId): Promise<void> {
    this.present.set(
      device,
      this.signedIn(device).filter((one) => one !== person),
    )
    this.left.set(device, [...(this.left.get(device) ?? []), person])
  }
}

const plan = {
  id: planId.parse('c1'),
  label: 'Song sparrow',
  technique: 'gapeSyringe',
  timing: { type: 'every', intervalMs: 30 * minuteMs },
  earlyPercent: 10,
  planned: null,
  cap: null,
  source: 'common practice, no source',
} as const

/** A room of two people on shift, one brood of two birds in one incubator. */
function furnished(nowMs: number, names: readonly { id: string; hash: string }[]): RoomEvent[] {
  const people = names.map((name, at) => ({
    ...{ type: 'PersonAdded', v: 1, person: `p${at + 1}`, name },
    role: at === 0 ? 'permitHolder' : 'volunteer',
    signOffs: ['gapeSyringe'],
  }))
  const shifts = names.map((_name, at) => {
    return { type: 'ShiftBegun', v: 1, person: `p${at + 1}`, atMs: nowMs }
  })
  const birds = ['red', 'blue'].map((band, at) => {
    return { id: `b${at + 1}`, band, species: 'SOSP', plan: plan.id }
  })
  return [
    ...people,
    ...shifts,
    { type: 'IncubatorAdded', v: 1, incubator: 'i1', label: '1' },
    { type: 'PlanSet', v: 1, plan },
    {
      ...{ type: 'NestOpened', v: 1, nest: 'n1', label: 'A', incubator: 'i1' },
      ...{ isQuarantined: false, birds, atMs: nowMs },
    },
  ] as RoomEvent[]
}

export class House {
  readonly disk: FakeDisk
  readonly doorkeeper = new FakeDoorkeeper()
  readonly timers = new FakeTimers()
  readonly log = keptLog()
  room: Room
  port = 0
  #listening: Listening | null = null
  #sockets: SocketServer | null = null
  #gateway: Gateway | null = null
  #screens: RawScreen[] = []

  readonly #hold: { until?: Promise<void> }

  private constructor(disk: FakeDisk, room: Room, hold: { until?: Promise<void> }) {
    this.#hold = hold
    this.disk = disk
    this.room = room
  }

  static async open(): Promise<House> {
    const hold: { until?: Promise<void> } = {}
    const before = (call: DiskCall) => (call === 'write' ? hold.until : undefined)
    const disk = new FakeDisk({ choose: seededChoose(1), before })
    const wishes = {
      season: '2026',
      title: 'Larch',
      zone: 'UTC',
      opensMinute: 0,
      closesMinute: 1440,
    }
    const house = new House(disk, await createRoom(placeOn(disk), wishes), hold)
    await house.room.record(({ nowMs, keep }) =>
      furnished(nowMs, [keep({ name: 'Mara' }), keep({ name: 'Finn' })]),
    )
    await house.#serve()
    return house
  }

  async #serve(): Promise<void> {
    const listening = await listen(0)
    this.port = listening.port
    const sockets = new SocketServer(this.port, 1)
    const { room, doorkeeper, timers, log } = this
    const gateway = new Gateway([{ room, doorkeeper }], {
      ...{ fanout: sockets.fanout, timers, log: log.log },
      linkMs: () => timers.nowMs(),
    })
    gateway.start()
    sockets.attach(listening.server, gateway)
    this.#listening = listening
    this.#sockets = sockets
    this.#gateway = gateway
  }

  async #leave(): Promise<void> {
    for (const screen of this.#screens.splice(0)) screen.close()
    this.#gateway?.stop()
    this.#sockets?.end()
    await this.#listening?.close()
    await this.room.close()
  }

  /** The process ends and another opens the same folder. */
  async restart(): Promise<void> {
    await this.#leave()
    this.room = await openRoom(placeOn(this.disk))
    await this.#serve()
  }

  async close(): Promise<void> {
    await this.#leave()
    const { lines } = this.log
    if (lines.length > 0) throw new Error(`the house complained: ${JSON.stringify(lines[0])}`)
  }

  screen(headers: Record<string, string> = {}): Promise<RawScreen> {
    const screen = new RawScreen(this.port, headers)
    this.#screens.push(screen)
    return screen.opened()
  }

  /** Every write to the disk waits until the function it returns is called. */
  holdWrites(): () => void {
    let release: () => void = () => undefined
    this.#hold.until = new Promise((resolve) => {
      release = resolve
    })
    return release
  }

  /** Connections that stand, as the server sees them. */
  get socketCount(): number {
    return this.#sockets?.count ?? 0
  }

  /** What no refused message may move. */
  get standing() {
    const { version, board } = this.room.durable
    return { version, hash: hashBoard(board), lane: this.room.laneN('d1') }
  }
}

function placeOn(disk: FakeDisk) {
  const startMs = Date.UTC(2026, 4, 9, 9)
  return {
    ...{ disk, dir: '/rooms/larch/2026', room: 'larch', speed: 1 },
    clockSource: { wallMs: () => startMs, monotonicMs: () => 0 },
    timers: new FakeTimers(),
    chance: fixedChance(1),
    log: keptLog().log,
  }
}
