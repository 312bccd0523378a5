// The server of a simulated room, one process after the other: each opens the real room from what the
// disk of the one before has kept, stands behind the real gateway, and may end at any effect it has on
// the world. What it tells and what becomes durable goes to the witness.

import { Gateway } from '../../server/gateway/gateway.ts'
import type { ScreenSocket } from '../../server/gateway/ports.ts'
import type { Log } from '../../server/log/log.ts'
import { createRoom, type FoundingWishes, openRoom } from '../../server/room/openRoom.ts'
import type { RoomParts } from '../../server/room/readRoom.ts'
import { realBrain } from '../../server/room/realBrain.ts'
import type { Room } from '../../server/room/room.ts'
import type { ScribeBugs } from '../../server/scribe/plantedBugs.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { FakeDisk } from '../support/fakeDisk.ts'
import type { Chance } from './chance.ts'
import { type TrustingDoorkeeper, WatchedRoom } from './doors.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Faults } from './faultClasses.ts'
import type { Network } from './network.ts'
import type { PlantedBug } from './plantedBugs.ts'
import { type DeathWay, ServerFate } from './serverFate.ts'
import { SimulatedDisk } from './simulatedDisk.ts'
import type { Witness } from './witness.ts'

export const roomName = 'meadow'
export const roomDir = '/rooms/meadow/2026'

export type ServerWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  readonly faults: Faults
  readonly network: Network
  readonly witness: Witness
  readonly doorkeeper: TrustingDoorkeeper
  readonly log: Log
  readonly bug: PlantedBug
}

export interface ServerWatcher {
  /** The process is gone and the disk holds what it holds; nobody has begun to mend it. */
  died(way: DeathWay | 'closed'): void
  /** A room stands open, before it has said a word to anyone. */
  opened(room: Room): void
  refused(error: unknown): void
  durable(record: RecordFrame): void
}

export class SimulatedServer {
  readonly #world: ServerWorld
  readonly #watcher: ServerWatcher
  #disk: FakeDisk
  #fate: ServerFate
  #room: Room | null = null
  #gateway: Gateway | null = null
  #state: 'down' | 'opening' | 'live' = 'down'
  /** Counts its processes. */
  life = 0
  /** Wall clock minus the world's own time: people set it, and sometimes wrong. */
  wallOffsetMs = 0
  /** When this process was last told of a failure that the record depends on. */
  failedAtMs: number | null = null
  isClosing = false
  /** The scribe looks at them at every turn, so one may be planted under a room that is served. */
  readonly #scribeBugs: ScribeBugs = {}

  constructor(world: ServerWorld, watcher: ServerWatcher) {
    this.#world = world
    this.#watcher = watcher
    this.#disk = new FakeDisk({ choose: world.chance.below })
    this.#fate = this.#newFate()
  }

  get disk(): FakeDisk {
    return this.#disk
  }
  get fate(): ServerFate {
    return this.#fate
  }
  get state(): 'down' | 'opening' | 'live' {
    return this.#state
  }
  get room(): Room | null {
    return this.#room
  }

  /** From now on the scribe has its planted mistake; a room is founded without. */
  plant(): void {
    Object.assign(this.#scribeBugs, this.#world.bug.scribe)
  }

  /** Whether the room could not write at this moment, however much it wished to. */
  get isWaitingForDisk(): boolean {
    const isFailing = this.#room?.house().some(({ type }) => type === 'journalFailing') ?? false
    return this.#fate.pending > 0 || isFailing
  }

  /** Begins a process; whether its room opens is told to the watcher. */
  start(founding?: FoundingWishes): void {
    this.life += 1
    this.#state = 'opening'
    this.failedAtMs = null
    this.isClosing = false
    this.#fate = this.#newFate()
    const { life } = this
    const parts = this.#parts(this.#fate)
    const opening = founding === undefined ? openRoom(parts) : createRoom(parts, founding)
    opening.then(
      (room) => {
        if (life === this.life) this.#opened(room)
      },
      (error: unknown) => {
        if (life === this.life) this.#refused(error)
      },
    )
  }

  /** The process ends between two steps, or in the middle of one. */
  die(way: DeathWay): void {
    if (this.#state === 'down') return
    this.#world.faults.injected(this.#state === 'opening' ? 'crashInRecovery' : way)
    this.#goDown(way === 'kill' && this.#world.chance.happens(0.7) ? 'ended' : 'vanished')
    this.#disk = way === 'kill' ? this.#disk.kill() : this.#disk.crash()
    this.#disk.heal()
    this.#watcher.died(way)
  }

  /** The process ends in good order, as for an upgrade; it may die on the way. */
  close(): void {
    const room = this.#room
    const { life } = this
    if (room === null || this.isClosing) return
    this.isClosing = true
    this.#gateway?.stop()
    this.#world.network.serverDown('ended')
    void room.close().then(() => {
      if (life !== this.life) return
      this.#goDown('ended')
      this.#disk = this.#disk.kill()
      this.#watcher.died('closed')
    })
  }

  #goDown(how: 'ended' | 'vanished'): void {
    this.#state = 'down'
    this.#room = null
    this.#gateway = null
    this.#fate.end()
    this.life += 1
    this.#world.network.serverDown(how)
  }

  #opened(room: Room): void {
    const { network, witness, doorkeeper, queue, log } = this.#world
    const fate = this.#fate
    this.#state = 'live'
    this.#room = room
    witness.serverLife = this.life
    this.#watcher.opened(room)
    room.subscribe((record) => this.#watcher.durable(record))
    const gateway = new Gateway([{ room: new WatchedRoom(room, witness, this.life), doorkeeper }], {
      fanout: (to, text) => {
        network.fanout(to, text, () => fate.passes('send'))
      },
      timers: this.#timers(fate),
      linkMs: () => queue.nowMs,
      log,
    })
    this.#gateway = gateway
    network.serverUp({ open: (socket) => gateway.open(this.#mortal(socket, fate)) })
    gateway.start()
    if (this.#world.bug.startsTwice && this.life > 1) gateway.start()
  }

  #refused(error: unknown): void {
    this.#goDown('ended')
    this.#disk = this.#disk.kill()
    this.#watcher.refused(error)
  }

  /** Every text sent is an effect at which the process may end. */
  #mortal(socket: ScreenSocket, fate: ServerFate): ScreenSocket {
    return {
      send: (text) => {
        if (fate.passes('send')) socket.send(text)
      },
      join: (room) => socket.join(room),
      unsentCount: () => socket.unsentCount(),
      close: () => socket.close(),
    }
  }

  #parts(fate: ServerFate): RoomParts {
    const { queue, chance, log, bug } = this.#world
    const disk = new SimulatedDisk(this.#disk, queue, fate)
    const begunMs = queue.nowMs
    const clockSource = {
      wallMs: () => queue.nowMs + this.wallOffsetMs,
      monotonicMs: () => queue.nowMs - begunMs,
    }
    return {
      disk: bug.disk?.(disk) ?? disk,
      dir: roomDir,
      room: roomName,
      brain: bug.serverBrain?.(realBrain) ?? realBrain,
      clockSource: bug.clockSource?.(clockSource) ?? clockSource,
      timers: this.#timers(fate),
      chance: { bytes: (count) => Uint8Array.from({ length: count }, () => chance.below(256)) },
      log,
      speed: 1,
      bugs: this.#scribeBugs,
    }
  }

  #timers(fate: ServerFate) {
    return {
      after: (delayMs: number, run: () => void) =>
        this.#world.queue.after(delayMs, 'server timer', () => {
          if (!fate.isGone) run()
        }),
    }
  }

  #newFate(): ServerFate {
    const { chance, faults } = this.#world
    return new ServerFate({
      chance,
      faults,
      die: (way) => this.die(way),
      failed: () => {
        this.failedAtMs = this.#world.queue.nowMs
      },
    })
  }
}
