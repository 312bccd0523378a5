// A screen for the gateway's tests: a bare socket that sends whatever it is told, good or bad, and
// keeps what comes back. Nothing is tried again and nothing waits longer than a few seconds.

import { io, type Socket } from 'socket.io-client'
import type { FromServer } from '../../../shared/wire/frames.ts'
import { frameEvent, protocolVersion } from '../../../shared/wire/limits.ts'

type FrameOf<Type extends FromServer['type']> = Extract<FromServer, { type: Type }>
const replyTypes = ['fault', 'answer', 'signedIn', 'code', 'records'] as const
type Reply = FrameOf<(typeof replyTypes)[number]>

const isReply = (frame: FromServer): frame is Reply =>
  replyTypes.some((type) => type === frame.type)

const waitMostMs = 5_000

export class RawScreen {
  readonly frames: FromServer[] = []
  readonly socket: Socket
  #waiting: (() => void)[] = []

  constructor(port: number, headers: Record<string, string> = {}) {
    this.socket = io(`http://127.0.0.1:${port}`, {
      transports: ['websocket'],
      reconnection: false,
      forceNew: true,
      extraHeaders: headers,
    })
    this.socket.on(frameEvent, (text: string) => {
      this.frames.push(JSON.parse(text))
      this.#wake()
    })
    this.socket.on('disconnect', () => this.#wake())
  }

  /** Resolves when the link is up; rejects when it is refused. */
  opened(): Promise<this> {
    return new Promise((resolve, reject) => {
      this.socket.once('connect', () => resolve(this))
      this.socket.once('connect_error', reject)
    })
  }

  send(frame: unknown): void {
    this.socket.emit(frameEvent, JSON.stringify(frame))
  }

  sendText(text: string): void {
    this.socket.emit(frameEvent, text)
  }

  /** The first frame of this type that was not given out before. */
  async next<Type extends FromServer['type']>(type: Type): Promise<FrameOf<Type>> {
    return this.#until(() => {
      const at = this.frames.findIndex((frame) => frame.type === type)
      return at < 0 ? null : (this.frames.splice(at, 1)[0] as FrameOf<Type>)
    }, `a frame ${type}`)
  }

  closed(): Promise<true> {
    return this.#until(() => (this.socket.connected ? null : true), 'the link to close')
  }

  async ask(frame: unknown): Promise<Reply> {
    this.send(frame)
    return this.reply()
  }

  /** Whatever answers what was sent last; records and beats go by. */
  reply(): Promise<Reply> {
    return this.#until(() => {
      const reply = this.frames.find(isReply) ?? null
      if (reply !== null) this.frames.splice(this.frames.indexOf(reply), 1)
      return reply
    }, 'a reply')
  }

  close(): void {
    this.socket.disconnect()
  }

  #wake(): void {
    for (const run of this.#waiting.splice(0)) run()
  }

  async #until<T>(look: () => T | null, what: string): Promise<T> {
    const giveUpAt = performance.now() + waitMostMs
    for (;;) {
      const seen = look()
      if (seen !== null) return seen
      if (performance.now() > giveUpAt) throw new Error(`waited in vain for ${what}`)
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, waitMostMs)
        this.#waiting.push(() => {
          clearTimeout(timer)
          resolve()
        })
      })
    }
  }
}

export type HelloParts = { room?: string; token?: string; epoch?: number; version?: number }

export const helloOf = (screen: string, parts: HelloParts = {}) => ({
  type: 'hello',
  protocol: protocolVersion,
  room: 'larch',
  screen,
  epoch: 0,
  version: 0,
  ...parts,
})
