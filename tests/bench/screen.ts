// A screen as the bench needs it: the real link, a hello, and whoever wants to hear what comes.

import { SocketLink } from '../../client/session/socketLink.ts'
import type { FromScreen, FromServer, HelloFrame, Welcome } from '../../shared/wire/frames.ts'
import { protocolVersion } from '../../shared/wire/limits.ts'

export type Entering = Pick<HelloFrame, 'room' | 'screen' | 'token'> & { readonly origin: string }

/** A server on this machine that has not answered by then does not. */
const answerMaxMs = 10_000

export class Screen {
  readonly #link: SocketLink
  hear: (frame: FromServer) => void = () => undefined

  private constructor(link: SocketLink) {
    this.#link = link
  }

  /** Rejects when the server does not let it in. */
  static enter({ origin, ...about }: Entering): Promise<{ screen: Screen; welcome: Welcome }> {
    const link = new SocketLink({ origin })
    const screen = new Screen(link)
    return new Promise((resolve, reject) => {
      link.connect({
        opened: () =>
          screen.send({ type: 'hello', protocol: protocolVersion, ...about, epoch: 0, version: 0 }),
        frame: (frame) => {
          if (frame.type === 'welcome') resolve({ screen, welcome: frame })
          else if (frame.type === 'fault') reject(new Error(`a screen met ${frame.code}`))
          screen.hear(frame)
        },
        closed: () => reject(new Error('a screen was not let in')),
      })
    })
  }

  send(frame: FromScreen): void {
    this.#link.send(frame)
  }

  /** The first frame for which `pick` finds something; a fault ends the wait. */
  async answer<T>(pick: (frame: FromServer) => T | null): Promise<T> {
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error('no answer came')), answerMaxMs)
      this.hear = (frame) => {
        const picked = pick(frame)
        if (picked === null && frame.type !== 'fault') return
        clearTimeout(late)
        if (picked === null) reject(new Error(`the answer was ${JSON.stringify(frame)}`))
        else resolve(picked)
      }
    })
  }

  leave(): void {
    this.#link.close()
  }
}
