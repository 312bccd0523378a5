// One device of the room: its clocks, its outbox that outlives every page, and the page of the moment
// with the real session in it. A page may be loaded anew or switched off at any instant; whatever it
// had begun is then never heard of again.

import type { Complain, Link, OutboxStore, Timers } from '../../client/session/ports.ts'
import { RoomWatch } from '../../client/session/roomWatch.ts'
import { Session } from '../../client/session/session.ts'
import { MemoryOutbox } from '../../client/stores/memoryOutbox.ts'
import type { Chance } from './chance.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Faults } from './faultClasses.ts'
import type { Network } from './network.ts'
import type { ScreenBrain } from './plantedBugs.ts'
import type { Screen } from './screen.ts'
import { SimulatedStore, StoreLine } from './simulatedStore.ts'
import type { Witness } from './witness.ts'

export type DeviceWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  readonly faults: Faults
  readonly network: Network
  readonly brain: ScreenBrain
  readonly room: string
  readonly complain: Complain
  /** Every version as it comes to stand on a screen, with how the page got it. */
  readonly seen: (screen: Screen, by: 'board' | 'record') => void
  /** Lets a planted bug stand between session and store. */
  readonly storeOf: (beneath: OutboxStore) => OutboxStore
  readonly timersOf: (timers: Timers) => Timers
  readonly linkOf: (link: Link) => Link
  readonly witness: Witness
}

/** A quartz is off by a few seconds a day, and a cheap one by half a minute. */
const ratePpm = 300

/** The clocks of one device; the wall clock may be set wrong, the other only runs a little off. */
class DeviceClocks {
  readonly #queue: EventQueue
  readonly #rate: number
  readonly #baseMs: number
  readonly #changed: (timers: Timers) => Timers
  wallOffsetMs: number

  constructor({ queue, chance, timersOf }: DeviceWorld) {
    this.#queue = queue
    this.#rate = 1 + chance.between(-ratePpm, ratePpm) / 1_000_000
    this.#baseMs = queue.nowMs
    this.#changed = timersOf
    this.wallOffsetMs = chance.between(-3_000, 3_000)
  }

  timersOf(isAlive: () => boolean, what: string): Timers {
    const beganMs = this.#queue.nowMs
    return this.#changed({
      nowMs: () => (this.#queue.nowMs - beganMs) * this.#rate,
      wallMs: () =>
        Math.round(this.#baseMs + (this.#queue.nowMs - this.#baseMs) * this.#rate) +
        this.wallOffsetMs,
      after: (delayMs, run) =>
        this.#queue.after(delayMs / this.#rate, what, () => {
          if (isAlive()) run()
        }),
    })
  }
}

export class Handheld implements Screen {
  readonly name: string
  readonly token: string
  readonly store = new MemoryOutbox()
  readonly clocks: DeviceClocks
  readonly #world: DeviceWorld
  readonly #line: StoreLine
  session: Session | null = null
  loadedAtMs = 0
  life = 0

  constructor(name: string, world: DeviceWorld) {
    this.name = name
    this.token = `the-token-of-${name}-and-nobody-else`
    this.#world = world
    this.clocks = new DeviceClocks(world)
    this.#line = new StoreLine(world.queue)
    void this.store.write({ token: this.token })
  }

  get watch(): Pick<RoomWatch, 'snapshot'> | null {
    return this.session
  }

  load(): void {
    const { queue, chance, faults, network, witness, ...world } = this.#world
    const { brain, room, complain, seen, storeOf, linkOf } = world
    this.life += 1
    this.loadedAtMs = queue.nowMs
    const life = this.life
    const isAlive = () => this.life === life && this.session !== null
    const store = new SimulatedStore(storeOf(this.store), {
      ...{ chance, faults, isAlive, line: this.#line },
      kept: (entry, insteadOf) => witness.kept({ device: this.name, entry, insteadOf }),
      changed: () => this.#lookAtStore(),
    })
    this.session = new Session({
      ...{ room, screen: 'hand', brain, complain, store },
      chance: chance.share,
      link: linkOf(network.portOf(this.name)),
      timers: this.clocks.timersOf(isAlive, `${this.name} timer`),
      seen: ({ by }) => {
        if (isAlive()) seen(this, by)
      },
    })
    void this.session.start()
  }

  async #lookAtStore(): Promise<void> {
    const contents = await this.store.load()
    this.#world.witness.store({ device: this.name, contents })
  }

  /** The page ends where it stands; nobody tells the server, or the browser does. */
  switchOff(how: 'told' | 'untold'): void {
    this.session = null
    this.life += 1
    if (how === 'told') this.#world.network.leave(this.name)
    else this.#world.network.vanish(this.name)
  }
}

export class Wall implements Screen {
  readonly name: string
  readonly #world: DeviceWorld
  watch: RoomWatch | null = null
  loadedAtMs = 0
  life = 0

  constructor(name: string, world: DeviceWorld) {
    this.name = name
    this.#world = world
  }

  load(): void {
    const { queue, chance, network, brain, room, complain, seen, linkOf } = this.#world
    this.life += 1
    this.loadedAtMs = queue.nowMs
    const life = this.life
    const isAlive = () => this.life === life
    this.watch = new RoomWatch({
      ...{ room, screen: 'wall', brain, complain },
      chance: chance.share,
      link: linkOf(network.portOf(this.name)),
      timers: new DeviceClocks(this.#world).timersOf(isAlive, `${this.name} timer`),
      seen: ({ by }) => {
        if (isAlive()) seen(this, by)
      },
    })
    this.watch.start()
  }

  switchOff(): void {
    this.watch = null
    this.life += 1
    this.#world.network.vanish(this.name)
  }
}
