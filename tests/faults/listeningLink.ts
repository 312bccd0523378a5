// A link with the oracle listening on it: every frame passes unchanged, and is noted at the moment it
// passes, before the session has seen it. `heard` lets a kill be timed by what goes by.

import type { Link, LinkHandlers } from '../../client/session/ports.ts'
import type { FromScreen, FromServer } from '../../shared/wire/frames.ts'
import type { Oracle } from './oracle.ts'

export type Passing =
  | { readonly way: 'out'; readonly frame: FromScreen }
  | { readonly way: 'in'; readonly frame: FromServer }

export type Listener = {
  readonly oracle: Oracle
  /** The screen's name in what the oracle says. */
  readonly screen: string
  readonly heard: (passing: Passing) => void
}

export class ListeningLink implements Link {
  readonly #link: Link
  readonly #listener: Listener
  #isUp = false

  constructor(link: Link, listener: Listener) {
    this.#link = link
    this.#listener = listener
  }

  /** While this is true, something the server has sent may still be on its way. */
  get isUp(): boolean {
    return this.#isUp
  }

  connect(handlers: LinkHandlers): void {
    const { oracle, screen, heard } = this.#listener
    this.#isUp = true
    this.#link.connect({
      opened: () => handlers.opened(),
      frame: (frame) => {
        oracle.told(screen, frame)
        heard({ way: 'in', frame })
        handlers.frame(frame)
      },
      closed: () => {
        this.#isUp = false
        handlers.closed()
      },
    })
  }

  send(frame: FromScreen): void {
    const { oracle, screen, heard } = this.#listener
    oracle.sent(screen, frame)
    this.#link.send(frame)
    heard({ way: 'out', frame })
  }

  close(): void {
    this.#isUp = false
    this.#link.close()
  }
}
