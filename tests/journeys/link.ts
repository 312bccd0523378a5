// The wire between one page and the server, with a hand on it: deaf (what the server says is lost, what
// the page says arrives) or cut (closed, and refused until it is whole again).

import type { BrowserContext, WebSocketRoute } from 'playwright-core'

export class HeldLink {
  #state: 'whole' | 'deaf' | 'cut' = 'whole'
  readonly #open = new Set<WebSocketRoute>()

  /** Every WebSocket of the context goes through the hand from now on. */
  static async on(context: BrowserContext): Promise<HeldLink> {
    const link = new HeldLink()
    await context.routeWebSocket(/socket\.io/, (page) => link.#join(page))
    return link
  }

  deafen(): void {
    this.#state = 'deaf'
  }

  async cut(): Promise<void> {
    this.#state = 'cut'
    await Promise.all([...this.#open].map((page) => page.close()))
    this.#open.clear()
  }

  mend(): void {
    this.#state = 'whole'
  }

  #join(page: WebSocketRoute): void {
    if (this.#state === 'cut') {
      void page.close()
      return
    }
    this.#open.add(page)
    const server = page.connectToServer()
    page.onMessage((message) => server.send(message))
    server.onMessage((message) => {
      if (this.#state === 'whole') page.send(message)
    })
  }
}
