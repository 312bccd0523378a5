// One attempt of one device to reach the server, and the link that comes of it: two pipes, and what
// each end knows of the other. An end that vanishes says nothing; the other finds out by itself when
// its pings stay unanswered, as the real transport does.
//
//   device ──up──▶ server      ended: the other end is told      vanished: it waits for a ping
//          ◀─down──            reset: what was underway is lost

import { secondMs } from '../../shared/base/values.ts'
import type { Chance } from './chance.ts'
import type { EventQueue } from './eventQueue.ts'
import { Pipe } from './pipe.ts'

export type Way = 'up' | 'down'

export interface DeviceEnd {
  opened(): void
  text(text: string): void
  closed(): void
}

export interface ServerEnd {
  text(text: string): void
  closed(): void
}

export type LinkWorld = { readonly queue: EventQueue; readonly chance: Chance }

/** A ping goes out every five seconds and may take four. */
const pingMs = { least: 5 * secondMs, most: 9 * secondMs } as const
const latencyMs = { least: 1, most: 25 } as const

export class SimulatedLink {
  readonly device: string
  readonly #world: LinkWorld
  readonly #up: Pipe
  readonly #down: Pipe
  readonly #deviceEnd: DeviceEnd
  #serverEnd: ServerEnd | null = null
  #isDeviceHere = true
  #isServerHere = false

  constructor(device: string, world: LinkWorld, deviceEnd: DeviceEnd) {
    this.device = device
    this.#world = world
    this.#deviceEnd = deviceEnd
    this.#up = new Pipe(world.queue, `${device} > server`, {
      text: (text) => {
        if (this.#isServerHere) this.#serverEnd?.text(text)
      },
      ended: () => this.#serverHears(),
    })
    this.#down = new Pipe(world.queue, `server > ${device}`, {
      text: (text) => {
        if (this.#isDeviceHere) this.#deviceEnd.text(text)
      },
      ended: () => this.#deviceHears(),
    })
  }

  get isGone(): boolean {
    return !this.#isDeviceHere && !this.#isServerHere
  }

  get isDeviceHere(): boolean {
    return this.#isDeviceHere
  }

  get isServerHere(): boolean {
    return this.#isServerHere
  }

  get unsentCount(): number {
    return this.#down.unsentCount
  }

  /** The server has taken the connection; the device learns of it a moment later. */
  accepted(serverEnd: ServerEnd): void {
    this.#serverEnd = serverEnd
    this.#isServerHere = true
    this.#world.queue.after(this.#latency(), `${this.device} open`, () => {
      if (this.#isDeviceHere && this.#isServerHere) this.#deviceEnd.opened()
    })
  }

  refused(): void {
    this.#world.queue.after(this.#latency(), `${this.device} refused`, () => this.#deviceHears())
  }

  send(way: Way, text: string, extraMs = 0): void {
    if (way === 'up' ? !this.#isDeviceHere : !this.#isServerHere) return
    this.#pipe(way).send(text, this.#latency() + extraMs)
  }

  /** The device closes it in good order. */
  endDevice(): void {
    if (!this.#isDeviceHere) return
    this.#isDeviceHere = false
    this.#down.cut()
    this.#up.end(this.#latency())
    if (this.#up.isHeld) this.#afterPing(() => this.#serverHears())
  }

  /** The device is switched off or its page is gone, and the server is not told. */
  vanishDevice(): void {
    this.#isDeviceHere = false
    this.#down.cut()
    this.#afterPing(() => this.#serverHears())
  }

  endServer(): void {
    if (!this.#isServerHere) return
    this.#isServerHere = false
    this.#up.cut()
    this.#down.end(this.#latency())
    if (this.#down.isHeld) this.#afterPing(() => this.#deviceHears())
  }

  /** The machine is gone without a word; what it sent before still arrives. */
  vanishServer(): void {
    this.#isServerHere = false
    this.#up.cut()
    this.#afterPing(() => this.#deviceHears())
  }

  /** Whatever is underway is lost, and both ends hear of it. */
  reset(): void {
    this.#up.cut()
    this.#down.cut()
    this.#world.queue.after(this.#latency(), `${this.device} reset`, () => this.#deviceHears())
    this.#world.queue.after(this.#latency(), `${this.device} reset`, () => this.#serverHears())
  }

  /** Nothing passes any more, and neither end is told. */
  sever(): void {
    this.#up.cut()
    this.#down.cut()
    this.#afterPing(() => this.#deviceHears())
    this.#afterPing(() => this.#serverHears())
  }

  /** Nothing passes this way until `release`; whoever waits for the other's ping gives up in time. */
  hold(way: Way): void {
    const pipe = this.#pipe(way)
    if (pipe.isHeld) return
    pipe.hold()
    this.#afterPing(() => {
      if (!pipe.isHeld) return
      if (way === 'down') this.#deviceHears()
      else this.#serverHears()
    })
  }

  release(way: Way): void {
    this.#pipe(way).release()
  }

  /** The server's end learns that there is no device any more. */
  #serverHears(): void {
    if (!this.#isServerHere) return
    this.#isServerHere = false
    this.#up.cut()
    this.#serverEnd?.closed()
    this.#down.end(this.#latency())
  }

  #deviceHears(): void {
    if (!this.#isDeviceHere) return
    this.#isDeviceHere = false
    this.#down.cut()
    this.#deviceEnd.closed()
    this.#up.end(this.#latency())
  }

  #afterPing(run: () => void): void {
    this.#world.queue.after(
      this.#world.chance.between(pingMs.least, pingMs.most),
      `${this.device} ping`,
      run,
    )
  }

  #pipe(way: Way): Pipe {
    return way === 'up' ? this.#up : this.#down
  }

  #latency(): number {
    return this.#world.chance.between(latencyMs.least, latencyMs.most)
  }
}
