// The room's network: which devices can reach the server, what goes wrong with a frame on its way, and
// the port through which a session uses it. Both ends see texts, as on the real socket.

import type { Link, LinkHandlers } from '../../client/session/ports.ts'
import type { ScreenSocket } from '../../server/gateway/ports.ts'
import type { FromServer } from '../../shared/wire/frames.ts'
import type { Chance } from './chance.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Faults } from './faultClasses.ts'
import { frozen } from './frozen.ts'
import { type DeviceEnd, type ServerEnd, SimulatedLink, type Way } from './simulatedLink.ts'
import type { Trace } from './trace.ts'

/** How the server takes a connection; null while it is down. */
export interface Listener {
  open(socket: ScreenSocket): { receive(parts: readonly unknown[]): Promise<void>; close(): void }
}

/** What the outside sees of the frames, whatever the two ends make of them. */
export interface Wiretap {
  /** Handed to the network by a device. */
  sent(device: string, text: string): void
  /** Handed over by the server, before anything can go wrong with it. */
  told(device: string, text: string): void
  /** It has reached the device's page. */
  heard(device: string, frame: FromServer): void
}

export type NetworkWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  readonly faults: Faults
  readonly trace: Trace
  readonly wiretap: Wiretap
}

/** How often something goes wrong with one frame. Beats are many, so each is a smaller target. */
const troubleShare = { beat: 1 / 6_000, other: 1 / 80 } as const
const delayMs = { least: 200, most: 4_000 } as const
/** A second copy may lag behind. */
const copyDelayMs = { least: 0, most: 1_500 } as const

export class Network {
  readonly #world: NetworkWorld
  #listener: Listener | null = null
  #links: SimulatedLink[] = []
  readonly #joined = new Map<SimulatedLink, string>()
  readonly #held = new Map<string, ReadonlySet<Way>>()
  readonly #parsed = new Map<string, FromServer>()

  constructor(world: NetworkWorld) {
    this.#world = world
  }

  /** The room's frames to all who joined it, in the order in which they came. */
  fanout(room: string, text: string, passes: () => boolean): void {
    for (const link of [...this.#links]) {
      if (this.#joined.get(link) !== room) continue
      if (!passes()) return
      this.#tell(link, text)
    }
  }

  /** Screens that the server still believes to be there. */
  get watcherCount(): number {
    return this.#links.filter((link) => link.isServerHere && this.#joined.has(link)).length
  }

  serverUp(listener: Listener): void {
    this.#listener = listener
  }

  /** The server is gone; its machine too, and then nobody is told. */
  serverDown(how: 'ended' | 'vanished'): void {
    this.#listener = null
    for (const link of this.#links) {
      if (how === 'ended') link.endServer()
      else link.vanishServer()
    }
  }

  isHeld(device: string): boolean {
    return this.#held.has(device)
  }

  hold(device: string, ways: readonly Way[]): void {
    this.#held.set(device, new Set(ways))
    for (const link of this.#linksOf(device)) for (const way of ways) link.hold(way)
  }

  release(device: string): void {
    this.#held.delete(device)
    for (const link of this.#linksOf(device)) {
      link.release('up')
      link.release('down')
    }
  }

  /** The link is dead in both directions, and each end must find out for itself. */
  sever(device: string): void {
    for (const link of this.#linksOf(device)) link.sever()
  }

  /** The device's page is gone, and its browser says so. */
  leave(device: string): void {
    for (const link of this.#linksOf(device)) link.endDevice()
  }

  /** The device's page is gone without a word. */
  vanish(device: string): void {
    for (const link of this.#linksOf(device)) link.vanishDevice()
  }

  /** One link at a time, as a page keeps it. */
  portOf(device: string): Link {
    let current: SimulatedLink | null = null
    return {
      connect: (handlers) => {
        current = this.#attempt(device, handlers)
      },
      send: (frame) => {
        if (current !== null) this.#send(current, JSON.stringify(frame))
      },
      close: () => {
        current?.endDevice()
        current = null
      },
    }
  }

  #attempt(device: string, handlers: LinkHandlers): SimulatedLink {
    const { queue, chance, trace, wiretap } = this.#world
    const end: DeviceEnd = {
      opened: () => handlers.opened(),
      text: (text) => {
        trace.add(queue.nowMs, `${device} <`, text)
        const frame = this.#parse(text)
        wiretap.heard(device, frame)
        handlers.frame(frame)
      },
      closed: () => {
        trace.add(queue.nowMs, `${device} link closed`, '')
        handlers.closed()
      },
    }
    const link = new SimulatedLink(device, { queue, chance }, end)
    this.#links = this.#links.filter((other) => !other.isGone)
    this.#links.push(link)
    queue.after(chance.between(1, 25), `${device} attempt`, () => this.#knock(link))
    return link
  }

  /** Through a held way nothing comes back, and the device itself must give up. */
  #knock(link: SimulatedLink): void {
    if (!link.isDeviceHere || this.#held.has(link.device)) return
    if (this.#listener === null) link.refused()
    else this.#accept(link, this.#listener)
  }

  #accept(link: SimulatedLink, listener: Listener): void {
    const { queue, trace } = this.#world
    const screen = listener.open({
      send: (text) => this.#tell(link, text),
      join: (room) => {
        this.#joined.set(link, room)
      },
      unsentCount: () => link.unsentCount,
      close: () => link.endServer(),
    })
    const end: ServerEnd = {
      text: (text) => {
        trace.add(queue.nowMs, `${link.device} >`, text)
        void screen.receive([text])
      },
      closed: () => {
        this.#joined.delete(link)
        screen.close()
      },
    }
    link.accepted(end)
  }

  #send(link: SimulatedLink, text: string): void {
    this.#world.wiretap.sent(link.device, text)
    this.#pass(link, 'up', text)
  }

  #tell(link: SimulatedLink, text: string): void {
    if (!link.isServerHere) return
    this.#world.wiretap.told(link.device, text)
    this.#pass(link, 'down', text)
  }

  #pass(link: SimulatedLink, way: Way, text: string): void {
    const { chance, faults } = this.#world
    const isBeat = text.startsWith('{"type":"beat"')
    if (!chance.happens(isBeat ? troubleShare.beat : troubleShare.other)) {
      link.send(way, text)
      return
    }
    const fault = chance.oneOf(['drop', 'delay', 'duplicate'] as const)
    if (!faults.isOn(fault)) {
      link.send(way, text)
      return
    }
    faults.injected(fault)
    if (fault === 'drop') link.reset()
    else if (fault === 'delay') link.send(way, text, chance.between(delayMs.least, delayMs.most))
    else {
      link.send(way, text)
      link.send(way, text, chance.between(copyDelayMs.least, copyDelayMs.most))
    }
  }

  #linksOf(device: string): readonly SimulatedLink[] {
    return this.#links.filter((link) => link.device === device)
  }

  /** One text reaches many screens: it is read once, and nobody may change what all of them got. */
  #parse(text: string): FromServer {
    const known = this.#parsed.get(text)
    if (known !== undefined) return known
    const frame: FromServer = frozen(JSON.parse(text))
    if (this.#parsed.size >= parsedMax) this.#parsed.clear()
    this.#parsed.set(text, frame)
    return frame
  }
}

const parsedMax = 64
