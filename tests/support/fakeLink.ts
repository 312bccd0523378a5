// A link whose other end is the test: it says when an attempt opens, what comes in and when it breaks,
// and reads what was sent. Something sent while closed is a mistake of the session and throws.

import type { Link, LinkHandlers } from '../../client/session/ports.ts'
import type { CommandFrame, FromScreen, FromServer, HelloFrame } from '../../shared/wire/frames.ts'

export class FakeLink implements Link {
  #handlers: LinkHandlers | null = null
  #isOpen = false
  /** The handlers of every attempt so far, for a test that lets an old one speak. */
  readonly attempts: LinkHandlers[] = []
  readonly sent: FromScreen[] = []

  connect(handlers: LinkHandlers): void {
    this.#handlers = handlers
    this.attempts.push(handlers)
  }

  send(frame: FromScreen): void {
    if (!this.#isOpen) throw new Error(`sent while closed: ${frame.type}`)
    this.sent.push(frame)
  }

  close(): void {
    this.#isOpen = false
    this.#handlers = null
  }

  get isOpen(): boolean {
    return this.#isOpen
  }

  get isTrying(): boolean {
    return this.#handlers !== null && !this.#isOpen
  }

  open(): void {
    this.#isOpen = true
    this.#handlers?.opened()
  }

  say(frame: FromServer): void {
    this.#handlers?.frame(frame)
  }

  /** The other end goes away. */
  cut(): void {
    this.#isOpen = false
    this.#handlers?.closed()
  }

  commands(): readonly CommandFrame[] {
    return this.sent.filter((frame) => frame.type === 'command')
  }

  hellos(): readonly HelloFrame[] {
    return this.sent.filter((frame) => frame.type === 'hello')
  }

  lastCommand(): CommandFrame {
    const last = this.commands().at(-1)
    if (last === undefined) throw new Error('no command was sent')
    return last
  }

  lastHello(): HelloFrame {
    const last = this.hellos().at(-1)
    if (last === undefined) throw new Error('no hello was sent')
    return last
  }
}
