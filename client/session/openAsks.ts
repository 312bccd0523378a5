// Asks that somebody is waiting for: at most 15 s by this device's clock, and not at all over a lost
// link when they had not even been sent. An ask that is no longer here is sent as a withdrawal, if at
// all; that is the lane's business.

import type { LengthMs } from '../../shared/base/values.ts'
import type { AskOutcome } from './outcomes.ts'
import type { Timers } from './ports.ts'

type OpenAsk = {
  readonly resolve: (outcome: AskOutcome) => void
  readonly cancelExpiry: () => void
  isSent: boolean
}

export class OpenAsks {
  readonly #timers: Timers
  readonly #open = new Map<number, OpenAsk>()

  constructor(timers: Timers) {
    this.#timers = timers
  }

  /** Resolves with its outcome; `expired` is called when it runs out first. */
  open(n: number, leftMs: LengthMs, expired: () => void): Promise<AskOutcome> {
    return new Promise((resolve) => {
      const cancelExpiry = this.#timers.after(Math.max(0, leftMs), () => {
        this.close(n, { status: 'expired' })
        expired()
      })
      this.#open.set(n, { resolve, cancelExpiry, isSent: false })
    })
  }

  isOpen(n: number): boolean {
    return this.#open.has(n)
  }

  isSent(n: number): boolean {
    return this.#open.get(n)?.isSent ?? false
  }

  sent(n: number): void {
    const ask = this.#open.get(n)
    if (ask !== undefined) ask.isSent = true
  }

  /** False when nobody waits for it any more. */
  close(n: number, outcome: AskOutcome): boolean {
    const ask = this.#open.get(n)
    if (ask === undefined) return false
    this.#open.delete(n)
    ask.cancelExpiry()
    ask.resolve(outcome)
    return true
  }

  /** The link is gone: an ask is never queued for the next one. One already sent may yet be answered. */
  lost(): void {
    for (const [n, { isSent }] of [...this.#open]) if (!isSent) this.close(n, { status: 'notLive' })
  }

  closeAll(): void {
    for (const n of [...this.#open.keys()]) this.close(n, { status: 'stopped' })
  }
}
