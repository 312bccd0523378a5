// Keeping one link to the room, for ever: attempt, give up on silence, wait a little, attempt again.
// It knows nothing of what the frames say. Whatever an older attempt still reports is not heard, so a
// link that closes twice, or speaks after it was dropped, does no harm.
//
//   opening ──opened──▶ open ──(welcome: steady)──▶ heard … heard … ──silence──▶ drop
//      ╰──────────────── closed, or 10 s without a welcome ──▶ wait 0.1-5 s ──▶ opening

import type { FromScreen, FromServer } from '../../shared/wire/frames.ts'
import { notLiveMs } from '../../shared/wire/limits.ts'
import { reconnectBackoff, waitMs } from './backoff.ts'
import type { Chance, Complain, Link, Timers } from './ports.ts'

export type ConnectionPorts = {
  readonly link: Link
  readonly timers: Timers
  readonly chance: Chance
  readonly complain: Complain
}

export interface ConnectionHandlers {
  opened(): void
  frame(frame: FromServer): void
  /** Told once for every attempt that ends, however it ends. */
  lost(): void
}

/** An attempt that has brought no welcome by then is as dead as a link that fell silent. */
const attemptMaxMs = notLiveMs

export class Connection {
  readonly #ports: ConnectionPorts
  readonly #handlers: ConnectionHandlers
  /** Counts attempts and their ends; a report from another number than the present one is stale. */
  #attempt = 0
  #state: 'stopped' | 'waiting' | 'opening' | 'open' = 'stopped'
  #failures = 0
  #cancelTimer: () => void = () => undefined

  constructor(ports: ConnectionPorts, handlers: ConnectionHandlers) {
    this.#ports = ports
    this.#handlers = handlers
  }

  start(): void {
    if (this.#state === 'stopped') this.#connect()
  }

  stop(): void {
    if (this.#state === 'stopped') return
    this.#end('stopped')
  }

  /** Nothing is sent, nor kept for later, while the link is not open. */
  send(frame: FromScreen): void {
    if (this.#state !== 'open') return
    try {
      this.#ports.link.send(frame)
    } catch (error) {
      this.#ports.complain('a frame could not be sent', error)
      this.drop()
    }
  }

  /** The welcomed room has spoken: the limit on silence runs anew. */
  heard(): void {
    if (this.#state === 'open') this.#arm(notLiveMs, () => this.drop())
  }

  /** The link has proved good: the next failure counts as the first. */
  steady(): void {
    this.#failures = 0
  }

  /** Ends this link and tries another one after a wait. */
  drop(): void {
    if (this.#state === 'opening' || this.#state === 'open') this.#lost()
  }

  #connect(): void {
    this.#attempt += 1
    const attempt = this.#attempt
    const ifStill = (run: () => void) => {
      if (attempt === this.#attempt) run()
    }
    this.#state = 'opening'
    this.#arm(attemptMaxMs, () => this.drop())
    try {
      this.#ports.link.connect({
        opened: () => ifStill(() => this.#opened()),
        frame: (frame) => ifStill(() => this.#frame(frame)),
        closed: () => ifStill(() => this.#lost()),
      })
    } catch (error) {
      this.#ports.complain('an attempt to connect failed', error)
      this.#lost()
    }
  }

  #opened(): void {
    if (this.#state !== 'opening') return
    this.#state = 'open'
    this.#handlers.opened()
  }

  #frame(frame: FromServer): void {
    if (this.#state === 'open') this.#handlers.frame(frame)
  }

  #lost(): void {
    this.#end('waiting')
    this.#failures += 1
    const pauseMs = waitMs(reconnectBackoff, this.#failures, this.#ports.chance)
    this.#arm(pauseMs, () => this.#connect())
    this.#handlers.lost()
  }

  #end(state: 'stopped' | 'waiting'): void {
    this.#attempt += 1
    this.#state = state
    this.#cancelTimer()
    try {
      this.#ports.link.close()
    } catch (error) {
      this.#ports.complain('a link could not be closed', error)
    }
  }

  #arm(delayMs: number, run: () => void): void {
    this.#cancelTimer()
    this.#cancelTimer = this.#ports.timers.after(delayMs, run)
  }
}
