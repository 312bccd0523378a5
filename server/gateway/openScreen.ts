// One connection from its first frame to its last. It begins as a stranger whose hello is waited for;
// then it looks, or it speaks for a device. What a wall holds has no way to write: not a check that
// could be forgotten, there is nothing to call.
//
//   stranger ──hello, wall──▶ onlooker    (every frame: readOnlyScreen)
//      │
//      └─────hello, token──▶ device      (commands, sign-ins)

import type {
  Fault,
  FaultCode,
  FromScreen,
  FromServer,
  HelloFrame,
} from '../../shared/wire/frames.ts'
import { commandsPerSecondMax } from '../../shared/wire/limits.ts'
import type { Log } from '../log/log.ts'
import { frameText, readFrame } from './frameText.ts'
import { MessageRate } from './messageRate.ts'
import type { ScreenSocket } from './ports.ts'

/** What a frame is answered with; nothing where the answer has been sent already. */
export type Reply = FromServer | null

/** Who stands at the other end, and what their frames do. */
export interface Visitor {
  /** Shared by all connections that count as one sender. */
  readonly rate: MessageRate
  take(frame: Exclude<FromScreen, HelloFrame>): Reply | Promise<Reply>
  leave(): void
}

/** Who this hello makes of the stranger, or why it is not let in. */
export type Welcoming = (hello: HelloFrame, socket: ScreenSocket) => Visitor | Fault

export type OpenScreenWorld = {
  readonly welcome: Welcoming
  readonly log: Log
  /** Real milliseconds that never go back. */
  readonly linkMs: () => number
}

export class OpenScreen {
  readonly #socket: ScreenSocket
  readonly #world: OpenScreenWorld
  readonly #rate: MessageRate
  #visitor: Visitor | null = null
  #isClosed = false

  constructor(socket: ScreenSocket, world: OpenScreenWorld) {
    this.#socket = socket
    this.#world = world
    this.#rate = new MessageRate(commandsPerSecondMax, world.linkMs())
  }

  get isStranger(): boolean {
    return this.#visitor === null
  }

  /** Takes whatever came with the socket's event. Never throws and never rejects. */
  async receive(parts: readonly unknown[]): Promise<void> {
    if (this.#isClosed) return
    try {
      const reply = await this.#answer(parts)
      if (reply !== null) this.#socket.send(frameText(reply))
    } catch (err) {
      this.#world.log.error({ err }, 'a message could not be answered')
      this.#socket.send(frameText(fault('internal')))
    }
  }

  close(): void {
    if (this.#isClosed) return
    this.#isClosed = true
    this.#visitor?.leave()
  }

  #answer(parts: readonly unknown[]): Reply | Promise<Reply> {
    const rate = this.#visitor?.rate ?? this.#rate
    if (!rate.allows(this.#world.linkMs())) return fault('tooMany')
    const read = readFrame(parts)
    if (!read.ok) return read.error
    const frame = read.value
    if (frame.type === 'hello') return this.#greet(frame)
    return this.#visitor === null ? fault('helloFirst') : this.#visitor.take(frame)
  }

  /** Says hello once: what a screen is does not change on a link. */
  #greet(hello: HelloFrame): Reply {
    if (this.#visitor !== null) return fault('malformed')
    const met = this.#world.welcome(hello, this.#socket)
    if ('code' in met) return met
    this.#visitor = met
    return null
  }
}

export const fault = (code: FaultCode): Fault => ({ type: 'fault', code })
