// All screens that look at one room: how many there may be, what all of them are told, and the
// heartbeat. One text is made for each thing told, and a screen that does not keep up is cut off; it
// comes back and gets the tail or the board instead of a queue without end.

import type { Beat, FromServer } from '../../shared/wire/frames.ts'
import { heartbeatMs, screensMax, socketsPerDeviceMax } from '../../shared/wire/limits.ts'
import type { TimersPort } from '../scribe/ports.ts'
import { frameText } from './frameText.ts'
import type { Fanout, RoomToWatch, ScreenSocket } from './ports.ts'

/** A busy room makes a few dozen a second; a screen this far behind has stopped reading. */
const unsentMax = 256

/** Null on a screen that only looks. */
type Member = { readonly socket: ScreenSocket; readonly device: string | null }

export type ScreensWorld = {
  readonly fanout: Fanout
  readonly timers: TimersPort
}

export class RoomScreens {
  readonly #room: RoomToWatch
  readonly #world: ScreensWorld
  readonly #members = new Set<Member>()
  readonly #stops: (() => void)[] = []
  #beatenVersion = -1

  constructor(room: RoomToWatch, world: ScreensWorld) {
    this.#room = room
    this.#world = world
  }

  start(): void {
    this.#stops.push(this.#room.subscribe((record) => this.#tellAll(record)))
    this.#beatLater()
  }

  stop(): void {
    for (const stop of this.#stops.splice(0)) stop()
    for (const { socket } of this.#members) socket.close()
  }

  get count(): number {
    return this.#members.size
  }

  /** Whether one more may look: at most so many in a room, and a few on one device. */
  hasPlaceFor(device: string | null): boolean {
    if (this.#members.size >= screensMax) return false
    return device === null || this.#ofDevice(device).length < socketsPerDeviceMax
  }

  /** From now on it is told everything; returns how to let it go. */
  admit(socket: ScreenSocket, device: string | null): () => void {
    const member: Member = { socket, device }
    this.#members.add(member)
    socket.join(this.#room.id)
    return () => this.#members.delete(member)
  }

  tellDevice(device: string, frame: FromServer): void {
    const text = frameText(frame)
    for (const { socket } of this.#ofDevice(device)) socket.send(text)
  }

  /** Ends every link of a device; what it is now it is told when it comes back. */
  closeDevice(device: string): void {
    for (const { socket } of this.#ofDevice(device)) socket.close()
  }

  #ofDevice(device: string): readonly Member[] {
    return [...this.#members].filter((member) => member.device === device)
  }

  #tellAll(frame: FromServer): void {
    for (const member of this.#members) {
      if (member.socket.unsentCount() > unsentMax) member.socket.close()
    }
    this.#world.fanout(this.#room.id, frameText(frame))
  }

  #beatLater(): void {
    const cancel = this.#world.timers.after(heartbeatMs, () => {
      this.#stops.splice(this.#stops.indexOf(cancel), 1)
      this.#tellAll(this.#beat())
      this.#beatLater()
    })
    this.#stops.push(cancel)
  }

  #beat(): Beat {
    const { version } = this.#room.durable
    const hash = version === this.#beatenVersion ? {} : { hash: this.#room.hash() }
    this.#beatenVersion = version
    return { type: 'beat', nowMs: this.#room.nowMs(), version, ...hash, house: this.#room.house() }
  }
}
