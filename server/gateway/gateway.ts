// The door of every room in this process: makes visitors of strangers, and keeps for each room its
// screens and its devices. Knows no socket library; `socketServer.ts` brings the connections.

import type { HelloFrame } from '../../shared/wire/frames.ts'
import { commandsPerSecondMax } from '../../shared/wire/limits.ts'
import type { Log } from '../log/log.ts'
import type { TimersPort } from '../scribe/ports.ts'
import { DeviceLink } from './deviceLink.ts'
import { frameText } from './frameText.ts'
import { recognise, welcome } from './greeting.ts'
import { MessageRate } from './messageRate.ts'
import { fault, OpenScreen, type Visitor } from './openScreen.ts'
import type { Fanout, RoomDoor, ScreenSocket } from './ports.ts'
import { RoomScreens } from './roomScreens.ts'

export type GatewayWorld = {
  readonly fanout: Fanout
  readonly timers: TimersPort
  readonly log: Log
  /** Real milliseconds that never go back. */
  readonly linkMs: () => number
}

/** One device's sockets share what it may send and what it has in flight. */
type DeviceHere = { readonly link: DeviceLink; readonly rate: MessageRate; sockets: number }

type RoomHere = {
  readonly door: RoomDoor
  readonly screens: RoomScreens
  readonly devices: Map<string, DeviceHere>
}

/** A connection that has not said who it is by then is nobody's screen. */
const helloWaitMs = 10_000

export class Gateway {
  readonly #rooms: ReadonlyMap<string, RoomHere>
  readonly #doors: ReadonlyMap<string, RoomDoor>
  readonly #world: GatewayWorld

  constructor(doors: readonly RoomDoor[], world: GatewayWorld) {
    this.#world = world
    this.#doors = new Map(doors.map((door) => [door.room.id, door]))
    this.#rooms = new Map(
      doors.map((door) => {
        const screens = new RoomScreens(door.room, world)
        return [door.room.id, { door, screens, devices: new Map() }]
      }),
    )
  }

  start(): void {
    for (const { screens } of this.#rooms.values()) screens.start()
  }

  /** Ends every heartbeat and every screen. */
  stop(): void {
    for (const { screens } of this.#rooms.values()) screens.stop()
  }

  open(socket: ScreenSocket): OpenScreen {
    const screen = new OpenScreen(socket, {
      welcome: (hello) => this.#welcome(hello, socket),
      log: this.#world.log,
      linkMs: this.#world.linkMs,
    })
    this.#world.timers.after(helloWaitMs, () => {
      if (screen.isStranger) socket.close()
    })
    return screen
  }

  /** In one step, so that no record falls between the board that is sent and the first one told. */
  #welcome(hello: HelloFrame, socket: ScreenSocket): Visitor | ReturnType<typeof fault> {
    const known = recognise(this.#doors, hello)
    if (!known.ok) return known.error
    const { door, device } = known.value
    const here = this.#rooms.get(door.room.id)
    if (here === undefined) return fault('roomUnknown')
    if (!here.screens.hasPlaceFor(device)) return fault('tooMany')
    socket.send(frameText(welcome(known.value, hello)))
    const leave = here.screens.admit(socket, device)
    return device === null ? this.#onlooker(leave) : this.#device(here, device, leave)
  }

  #onlooker(leave: () => void): Visitor {
    return {
      rate: new MessageRate(commandsPerSecondMax, this.#world.linkMs()),
      take: () => fault('readOnlyScreen'),
      leave,
    }
  }

  #device(here: RoomHere, device: string, leave: () => void): Visitor {
    const known = here.devices.get(device) ?? {
      link: new DeviceLink(here.door, device),
      rate: new MessageRate(commandsPerSecondMax, this.#world.linkMs()),
      sockets: 0,
    }
    known.sockets += 1
    here.devices.set(device, known)
    return {
      rate: known.rate,
      take: async (frame) => {
        const reply = await known.link.take(frame)
        if (reply.type !== 'signedIn') return reply
        here.screens.tellDevice(device, reply)
        return null
      },
      leave: () => {
        leave()
        known.sockets -= 1
        if (known.sockets === 0) here.devices.delete(device)
      },
    }
  }
}
