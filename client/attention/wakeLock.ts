// Keeps the screen lit while it is wished, as far as the browser can: it takes the lock away whenever the
// page is hidden, and the page asks again when it is seen again. Where there is no lock (an old browser,
// a page that is not secure, an empty battery) the screen goes dark as it always did.

export type WakeHold = {
  readonly release: () => Promise<void>
  readonly onReleased: (listener: () => void) => void
}

export type WakeGround = {
  /** Null where the browser has no such lock. */
  readonly request: (() => Promise<WakeHold>) | null
  readonly isVisible: () => boolean
  readonly onVisible: (listener: () => void) => void
}

export class WakeLockKeeper {
  readonly #ground: WakeGround
  #wish: 'awake' | 'mayRest' = 'mayRest'
  #hold: WakeHold | null = null
  #isAsking = false

  constructor(ground: WakeGround) {
    this.#ground = ground
    ground.onVisible(() => void this.#ask())
  }

  /** The same wish again asks nothing: a refusal is not repeated every second. */
  set(wish: 'awake' | 'mayRest'): void {
    if (wish === this.#wish) return
    this.#wish = wish
    if (wish === 'awake') void this.#ask()
    else void this.#letGo()
  }

  async #ask(): Promise<void> {
    const { request, isVisible } = this.#ground
    if (!request || this.#isAsking || this.#hold || !this.#isWished() || !isVisible()) return
    this.#isAsking = true
    try {
      this.#keep(await request())
    } catch {
      // Refused, as with an empty battery: asked again when the page is next seen.
      this.#hold = null
    }
    this.#isAsking = false
    if (!this.#isWished()) await this.#letGo()
  }

  #isWished(): boolean {
    return this.#wish === 'awake'
  }

  #keep(hold: WakeHold): void {
    this.#hold = hold
    hold.onReleased(() => {
      if (this.#hold === hold) this.#hold = null
    })
  }

  async #letGo(): Promise<void> {
    const hold = this.#hold
    this.#hold = null
    try {
      await hold?.release()
    } catch {
      // A lock the browser has taken back meanwhile is as good as let go.
      this.#hold = null
    }
  }
}
