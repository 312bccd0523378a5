// One room behind the gateway: its screens, the devices linked to it, and who of its people is heard.
// A device that is no longer the room's, or on which somebody was signed in who was just removed, loses
// its links; it comes back by itself and is then told what it is.

import type { PersonId } from '../../shared/base/values.ts'
import type { HelloFrame, RecordFrame } from '../../shared/wire/frames.ts'
import { commandsPerSecondMax, heartbeatMs } from '../../shared/wire/limits.ts'
import type { TimersPort } from '../scribe/ports.ts'
import { DeviceLink } from './deviceLink.ts'
import { frameText } from './frameText.ts'
import { type Guest, welcome } from './greeting.ts'
import { MessageRate } from './messageRate.ts'
import { fault, type Visitor, type Welcoming } from './openScreen.ts'
import { peopleOn } from './peopleOn.ts'
import type { Fanout, RoomDoor, ScreenSocket } from './ports.ts'
import { Presence } from './presence.ts'
import { RoomScreens } from './roomScreens.ts'

export type RoomWorld = {
  readonly fanout: Fanout
  readonly timers: TimersPort
  /** Real milliseconds that never go back. */
  readonly linkMs: () => number
}

/** One device's sockets share what it may send and what it has in flight. */
type DeviceHere = { readonly link: DeviceLink; readonly rate: MessageRate; sockets: number }

export class RoomHere {
  readonly #door: RoomDoor
  readonly #world: RoomWorld
  readonly #screens: RoomScreens
  readonly #presence: Presence
  readonly #devices = new Map<string, DeviceHere>()
  readonly #stops: (() => void)[] = []

  constructor(door: RoomDoor, world: RoomWorld) {
    const { room } = door
    this.#door = door
    this.#world = world
    this.#screens = new RoomScreens(room, world)
    this.#presence = new Presence({ room, timers: world.timers, heard: () => this.#heard() })
  }

  start(): void {
    this.#screens.start()
    this.#presence.start()
    this.#stops.push(this.#door.room.subscribe((record) => this.#recorded(record)))
    this.#checkLater()
  }

  /** Ends every heartbeat and every screen. */
  stop(): void {
    for (const stop of this.#stops.splice(0)) stop()
    this.#presence.stop()
    this.#screens.stop()
  }

  /** In one step, so that no record falls between the board that is sent and the first one told. */
  greet(guest: Guest, hello: HelloFrame, socket: ScreenSocket): ReturnType<Welcoming> {
    const { device } = guest
    if (!this.#screens.hasPlaceFor(device)) return fault('tooMany')
    socket.send(frameText(welcome(guest, hello)))
    const leave = this.#screens.admit(socket, device)
    return device === null ? this.#onlooker(leave) : this.#speaker(device, leave)
  }

  #onlooker(leave: () => void): Visitor {
    return { rate: this.#newRate(), take: () => fault('readOnlyScreen'), leave }
  }

  #speaker(device: string, leave: () => void): Visitor {
    const here = this.#devices.get(device) ?? {
      link: new DeviceLink(this.#door, device),
      rate: this.#newRate(),
      sockets: 0,
    }
    here.sockets += 1
    this.#devices.set(device, here)
    this.#presence.look()
    return {
      rate: here.rate,
      take: async (frame) => {
        const reply = await here.link.take(frame)
        if (reply.type !== 'signedIn') return reply
        this.#screens.tellDevice(device, reply)
        this.#presence.look()
        return null
      },
      leave: () => {
        leave()
        here.sockets -= 1
        if (here.sockets === 0) this.#devices.delete(device)
        this.#presence.look()
      },
    }
  }

  #newRate(): MessageRate {
    return new MessageRate(commandsPerSecondMax, this.#world.linkMs())
  }

  #heard(): ReadonlySet<PersonId> {
    return new Set([...this.#devices.keys()].flatMap((device) => peopleOn(this.#door, device)))
  }

  #recorded({ events }: RecordFrame): void {
    for (const event of events) if (event.type === 'PersonRemoved') this.#removed(event.person)
  }

  #removed(person: PersonId): void {
    for (const device of this.#devices.keys()) {
      const isThere = this.#door.doorkeeper.signedIn(device).includes(person)
      if (isThere) this.#screens.closeDevice(device)
    }
  }

  /** As often as the heart beats: a device may be unpaired by anything that writes the secrets. */
  #checkLater(): void {
    const cancel = this.#world.timers.after(heartbeatMs, () => {
      this.#stops.splice(this.#stops.indexOf(cancel), 1)
      for (const device of this.#devices.keys()) {
        if (!this.#door.doorkeeper.isStillPaired(device)) this.#screens.closeDevice(device)
      }
      this.#checkLater()
    })
    this.#stops.push(cancel)
  }
}
