// When what goes wrong. Each kind of trouble comes by itself, now and then, as long as this seed lets
// it in; what is broken is mended after a while, as people mend it, or all at once when calm is wanted.

import { hourMs, minuteMs, secondMs } from '../../shared/base/values.ts'
import { changingCalls } from '../support/fakeDisk.ts'
import type { Chance } from './chance.ts'
import type { Handheld, Wall } from './device.ts'
import type { TrustingDoorkeeper } from './doors.ts'
import type { EventQueue } from './eventQueue.ts'
import type { FaultClass, Faults } from './faultClasses.ts'
import type { Network } from './network.ts'
import type { SimulatedServer } from './simulatedServer.ts'
import { drawn } from './visit.ts'

export type TroubleWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  readonly faults: Faults
  readonly network: Network
  readonly server: SimulatedServer
  readonly doorkeeper: TrustingDoorkeeper
  readonly handhelds: readonly Handheld[]
  readonly walls: readonly Wall[]
}

/** At what a process dies once its time has come, and within how many such things it does. */
const dyings = [
  ['any', 40],
  ['journal', 12],
  ['private', 4],
  ['snapshot', 10],
] as const
const diskFailsMs = { least: 5 * secondMs, most: 2 * minuteMs } as const
const slowForMs = { least: minuteMs, most: 8 * minuteMs } as const
/** Wi-Fi that stutters, a walk to the store room, a battery that is empty. */
const awayMs = [
  [{ least: secondMs, most: 15 * secondMs }, 60],
  [{ least: 15 * secondMs, most: 90 * secondMs }, 25],
  [{ least: 3 * minuteMs, most: 40 * minuteMs }, 15],
] as const

type Trouble = { readonly fault: FaultClass; readonly everyMs: number; readonly begin: () => void }

export class Troubles {
  readonly #world: TroubleWorld
  readonly #troubles: readonly Trouble[]

  constructor(world: TroubleWorld) {
    this.#world = world
    const { handhelds } = world
    const perDevice = (everyMs: number) => Math.ceil(everyMs / handhelds.length)
    this.#troubles = [
      { fault: 'partition', everyMs: perDevice(70 * minuteMs), begin: () => this.#partition() },
      { fault: 'oneWay', everyMs: perDevice(110 * minuteMs), begin: () => this.#oneWay() },
      { fault: 'halfOpen', everyMs: perDevice(150 * minuteMs), begin: () => this.#sever() },
      { fault: 'reload', everyMs: perDevice(80 * minuteMs), begin: () => this.#reload() },
      { fault: 'signInLost', everyMs: perDevice(3 * hourMs), begin: () => this.#loseSignIns() },
      { fault: 'clientClockJump', everyMs: perDevice(4 * hourMs), begin: () => this.#setClock() },
      { fault: 'kill', everyMs: 100 * minuteMs, begin: () => this.#doom('kill') },
      { fault: 'powerLoss', everyMs: 120 * minuteMs, begin: () => this.#doom('powerLoss') },
      { fault: 'restart', everyMs: 4 * hourMs, begin: () => this.#restart() },
      { fault: 'failingFlush', everyMs: 3 * hourMs, begin: () => this.#failDisk() },
      { fault: 'fullDisk', everyMs: 5 * hourMs, begin: () => this.#fillDisk() },
      { fault: 'shortWrites', everyMs: 2 * hourMs, begin: () => this.#writeShort() },
      { fault: 'slowFlush', everyMs: 2 * hourMs, begin: () => this.#slowDisk() },
      { fault: 'serverClockJump', everyMs: 5 * hourMs, begin: () => this.#setServerClock() },
    ]
  }

  begin(): void {
    for (const trouble of this.#troubles) this.#wait(trouble)
  }

  /** Whatever is broken works again; what is underway finds its way. */
  mendAll(): void {
    const { network, server, handhelds, walls } = this.#world
    for (const { name } of [...handhelds, ...walls]) network.release(name)
    this.#mendDisk()
    server.fate.spare()
    for (const device of handhelds) if (device.session === null) device.load()
  }

  #wait(trouble: Trouble): void {
    const { queue, chance, faults } = this.#world
    const waitMs = Math.ceil(-Math.log(1 - chance.share()) * trouble.everyMs)
    queue.after(waitMs, `trouble ${trouble.fault}`, () => {
      if (faults.isOn(trouble.fault)) trouble.begin()
      this.#wait(trouble)
    })
  }

  #partition(): void {
    const { network, faults } = this.#world
    const name = this.#anyScreen()
    if (network.isHeld(name)) return
    faults.injected('partition')
    network.hold(name, ['up', 'down'])
    this.#releaseLater(name)
  }

  #oneWay(): void {
    const { network, chance, faults } = this.#world
    const name = this.#anyScreen()
    if (network.isHeld(name)) return
    faults.injected('oneWay')
    network.hold(name, [chance.oneOf(['up', 'down'] as const)])
    this.#releaseLater(name)
  }

  #sever(): void {
    this.#world.faults.injected('halfOpen')
    this.#world.network.sever(this.#anyScreen())
  }

  #releaseLater(name: string): void {
    const { queue, chance, network } = this.#world
    const { least, most } = drawn(chance, awayMs)
    queue.after(chance.between(least, most), `${name} comes back`, () => network.release(name))
  }

  #anyScreen(): string {
    const { chance, handhelds, walls } = this.#world
    return chance.oneOf([...handhelds, ...walls]).name
  }

  #reload(): void {
    const { queue, chance, faults, handhelds } = this.#world
    const device = chance.oneOf(handhelds)
    if (device.session === null) return
    faults.injected('reload')
    device.switchOff(chance.oneOf(['told', 'untold'] as const))
    const { least, most } = chance.happens(0.7)
      ? { least: 300, most: 3_000 }
      : drawn(chance, awayMs)
    queue.after(chance.between(least, most), `${device.name} loads`, () => {
      if (device.session === null) device.load()
    })
  }

  #loseSignIns(): void {
    const { chance, faults, doorkeeper, handhelds } = this.#world
    faults.injected('signInLost')
    doorkeeper.forget(chance.oneOf(handhelds).name)
  }

  #setClock(): void {
    const { chance, faults, handhelds } = this.#world
    faults.injected('clientClockJump')
    const hours = chance.oneOf([-26, -2, -1, 1, 2, 26])
    chance.oneOf(handhelds).clocks.wallOffsetMs += hours * hourMs + chance.between(-60_000, 60_000)
  }

  #setServerClock(): void {
    const { queue, chance, faults, server } = this.#world
    faults.injected('serverClockJump')
    const jumpMs = chance.oneOf([-1, 1]) * chance.between(5 * minuteMs, 2 * hourMs)
    server.wallOffsetMs += jumpMs
    queue.after(chance.between(minuteMs, hourMs), 'the clock is set right', () => {
      server.wallOffsetMs -= jumpMs
    })
  }

  /** The server dies somewhere in what it does next; it is counted when it happens. */
  #doom(way: 'kill' | 'powerLoss'): void {
    const { server, chance } = this.#world
    const [at, effectsMost] = chance.oneOf(dyings)
    server.fate.dieAfter(chance.between(1, effectsMost), at, way)
  }

  #restart(): void {
    const { server, faults } = this.#world
    if (server.state !== 'live' || server.isWaitingForDisk) return
    faults.injected('restart')
    server.close()
  }

  #failDisk(): void {
    const { queue, chance, server } = this.#world
    const isOnce = chance.happens(0.5)
    const calls = isOnce ? [chance.oneOf(['write', 'sync'] as const)] : changingCalls
    const code = chance.oneOf(['EIO', 'ENOSPC', 'EROFS'] as const)
    server.fate.failNext(code, calls, isOnce ? 'once' : 'on')
    if (isOnce) return
    const { least, most } = diskFailsMs
    queue.after(chance.between(least, most), 'the disk is mended', () => this.#mendDisk())
  }

  #fillDisk(): void {
    const { queue, chance, faults, server } = this.#world
    faults.injected('fullDisk')
    server.disk.setCapacity(server.disk.usedBytes + chance.below(4_000))
    const { least, most } = diskFailsMs
    queue.after(chance.between(least, most), 'the disk is emptied', () => this.#mendDisk())
  }

  #writeShort(): void {
    this.#world.faults.injected('shortWrites')
    this.#world.server.disk.writeShort()
    this.#world.queue.after(10 * minuteMs, 'writes are whole', () => this.#mendDisk())
  }

  #slowDisk(): void {
    const { queue, chance, server } = this.#world
    server.fate.isSlow = true
    const forMs = chance.between(slowForMs.least, slowForMs.most)
    queue.after(forMs, 'the disk is quick', () => this.#mendDisk())
  }

  #mendDisk(): void {
    this.#world.server.disk.heal()
    this.#world.server.fate.recover()
  }
}
