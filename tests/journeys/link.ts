// The wire between one page and the server, with a hand on it: deaf (what the server says is lost, what
// the page says arrives), held (what the server says waits, in order), or cut (closed, and refused until
// it is whole again).

import type { BrowserContext, WebSocketRoute } from 'playwright-core'

export class HeldLink {
  #state: 'whole' | 'deaf' | 'held' | 'cut' = 'whole'
  readonly #open = new Set<WebSocketRoute>()
  /** What a held page has not heard yet. */
  #unheard: readonly (() => void)[] = []

  /** Every WebSocket of the context goes through the hand from now on. */
  static async on(context: BrowserContext): Promise<HeldLink> {
    const link = new HeldLink()
    await context.routeWebSocket(/socket\.io/, (page) => link.#join(page))
    return link
  }

  deafen(): void {
    this.#state = 'deaf'
  }

  /** For the moment in which somebody else was quicker; shorter than a page waits before it says so. */
  hold(): void {
    this.#state = 'held'
  }

  async cut(): Promise<void> {
    this.#state = 'cut'
    await Promise.all([...this.#open].map((page) => page.close()))
    this.#open.clear()
  }

  mend(): void {
    this.#state = 'whole'
    for (const hear of this.#unheard) hear()
    this.#unheard = []
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
      if (this.#state === 'held') this.#unheard = [...this.#unheard, () => page.send(message)]
    })
  }
}
