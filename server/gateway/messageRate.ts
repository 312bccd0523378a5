// How many messages a device may send: a bucket that fills with real time. It keeps one broken or
// hostile device from taking the turns of all the others.

/** Full at the start and after a second's silence. */
export class MessageRate {
  readonly #perSecond: number
  #left: number
  #filledAtMs: number

  constructor(perSecond: number, nowMs: number) {
    this.#perSecond = perSecond
    this.#left = perSecond
    this.#filledAtMs = nowMs
  }

  /** Whether one more is allowed; `nowMs` is real time that never goes back. */
  allows(nowMs: number): boolean {
    const filled = ((nowMs - this.#filledAtMs) * this.#perSecond) / 1_000
    this.#left = Math.min(this.#perSecond, this.#left + filled)
    this.#filledAtMs = nowMs
    if (this.#left < 1) return false
    this.#left -= 1
    return true
  }
}
