// The door of every room in this process: takes connections in, finds the room each asks for, and
// leaves it there. Knows no socket library; `socketServer.ts` brings the connections.

import type { HelloFrame } from '../../shared/wire/frames.ts'
import type { Log } from '../log/log.ts'
import { recognise } from './greeting.ts'
import { fault, OpenScreen, type Welcoming } from './openScreen.ts'
import type { RoomDoor, ScreenSocket } from './ports.ts'
import { RoomHere, type RoomWorld } from './roomHere.ts'

export type GatewayWorld = RoomWorld & { readonly log: Log }

/** A connection that has not said who it is by then is nobody's screen. */
const helloWaitMs = 10_000

export class Gateway {
  readonly #rooms: ReadonlyMap<string, RoomHere>
  readonly #doors: ReadonlyMap<string, RoomDoor>
  readonly #world: GatewayWorld

  constructor(doors: readonly RoomDoor[], world: GatewayWorld) {
    this.#world = world
    this.#doors = new Map(doors.map((door) => [door.room.id, door]))
    this.#rooms = new Map(doors.map((door) => [door.room.id, new RoomHere(door, world)]))
  }

  start(): void {
    for (const room of this.#rooms.values()) room.start()
  }

  /** Ends every heartbeat and every screen. */
  stop(): void {
    for (const room of this.#rooms.values()) room.stop()
  }

  open(socket: ScreenSocket): OpenScreen {
    const { timers, log, linkMs } = this.#world
    const screen = new OpenScreen(socket, {
      welcome: (hello) => this.#welcome(hello, socket),
      ...{ log, linkMs },
    })
    timers.after(helloWaitMs, () => {
      if (screen.isStranger) socket.close()
    })
    return screen
  }

  #welcome(hello: HelloFrame, socket: ScreenSocket): ReturnType<Welcoming> {
    const known = recognise(this.#doors, hello)
    if (!known.ok) return known.error
    const here = this.#rooms.get(known.value.door.room.id)
    return here === undefined ? fault('roomUnknown') : here.greet(known.value, hello, socket)
  }
}
