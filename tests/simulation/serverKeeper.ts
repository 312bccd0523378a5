// Whoever keeps the machine of a simulated room: starts the server again after each of its deaths, and
// finds out each time what it left behind. Between a death and the next start a byte of its disk may
// change by itself; it is put right again as soon as the server has shown what it makes of it.

import type { Room } from '../../server/room/room.ts'
import { minuteMs, secondMs } from '../../shared/base/values.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import type { Chance } from './chance.ts'
import { Damage } from './damage.ts'
import { recordsOnDisk } from './durableJournal.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Examiner } from './examiner.ts'
import type { Faults } from './faultClasses.ts'
import type { Reference } from './reference.ts'
import type { ServerWatcher, SimulatedServer } from './simulatedServer.ts'
import type { Trace } from './trace.ts'
import type { Witness } from './witness.ts'

export type KeeperWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  readonly faults: Faults
  readonly trace: Trace
  readonly witness: Witness
  readonly reference: Reference
}

const downMs = { least: 300, most: 20 * secondMs } as const
const longDownMs = { least: minuteMs, most: 10 * minuteMs } as const
const share = { longDown: 0.15, damage: 0.35, diesAgain: 0.4 } as const
/** An opening makes about so many calls to the disk. */
const openingEffects = 30

export class ServerKeeper implements ServerWatcher {
  readonly #world: KeeperWorld
  readonly #damage: Damage
  #kept: { readonly server: SimulatedServer; readonly examiner: Examiner } | null = null
  #cancelStart: () => void = () => undefined

  constructor(world: KeeperWorld) {
    this.#world = world
    this.#damage = new Damage(world.chance)
  }

  /** Told once, before the server is first started. */
  keep(server: SimulatedServer, examiner: Examiner): void {
    this.#kept = { server, examiner }
  }

  get damagedFiles(): readonly string[] {
    return this.#damage.files
  }

  durable(record: RecordFrame): void {
    const one = this.#world.reference.take(record)
    if (one !== null) this.#world.witness.happened(one)
  }

  died(): void {
    const { chance, faults } = this.#world
    const { server, examiner } = this.#keeps
    this.#trace('server died', '')
    // Mended before anybody looks: what a process made of the damage is the question, not the damage.
    this.#damage.mend(server.disk)
    examiner.died()
    if (faults.isOn('damagedByte') && chance.happens(share.damage)) {
      if (this.#damage.inflict(server.disk)) faults.injected('damagedByte')
    }
    const { least, most } = chance.happens(share.longDown) ? longDownMs : downMs
    this.startLater(chance.between(least, most))
  }

  opened(room: Room): void {
    const { reference } = this.#world
    const { server, examiner } = this.#keeps
    this.#trace('server opened', String(room.durable.version))
    this.#damage.mend(server.disk)
    for (const { version, atMs, cause, by, events } of recordsOnDisk(server.disk)) {
      if (version <= reference.version || version > room.durable.version) continue
      // As its frame would have been, had anybody been there to be told.
      this.durable({ type: 'record', version, atMs, cause, by, events } as RecordFrame)
    }
    examiner.opened(room)
  }

  refused(error: unknown): void {
    const { server, examiner } = this.#keeps
    this.#trace('server refused', String(error))
    examiner.refused(error)
    this.#damage.mend(server.disk)
    this.startLater(5 * secondMs)
  }

  /** Starts it after so long, instead of whenever it was to be started. */
  startLater(delayMs: number): void {
    const { queue, chance, faults } = this.#world
    this.#cancelStart()
    this.#cancelStart = queue.after(delayMs, 'server starts', () => {
      const { server } = this.#keeps
      server.start()
      if (!faults.isOn('crashInRecovery') || !chance.happens(share.diesAgain)) return
      const way = faults.isOn('powerLoss') ? chance.oneOf(['kill', 'powerLoss'] as const) : 'kill'
      server.fate.dieAfter(chance.between(1, openingEffects), 'any', way)
    })
  }

  get #keeps() {
    if (this.#kept === null) throw new Error('nobody has told the keeper of a server')
    return this.#kept
  }

  #trace(what: string, detail: string): void {
    this.#world.trace.add(this.#world.queue.nowMs, what, detail)
  }
}
