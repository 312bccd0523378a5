// Signing in, first sign-in and signing out: asked over the live link, one at a time, answered or given
// up. They have no number and are never kept: a person who got no answer sees it and taps again.

import type { PersonId } from '../../shared/base/values.ts'
import type { Fault, FromScreen } from '../../shared/wire/frames.ts'
import type { SignInOutcome } from './outcomes.ts'
import type { Timers } from './ports.ts'

export type Request = Extract<FromScreen, { type: 'signIn' | 'redeem' | 'signOut' }>

/** The server checks one PIN at a time, on purpose slowly; several people at once stand in a line. */
const requestMaxMs = 15_000

type Open = {
  readonly request: Request
  readonly resolve: (outcome: SignInOutcome) => void
  readonly cancel: () => void
}

export class Requests {
  readonly #timers: Timers
  #open: Open | null = null

  constructor(timers: Timers) {
    this.#timers = timers
  }

  /** Calls `send` with the request, unless another is still open. */
  ask(request: Request, send: (request: Request) => void): Promise<SignInOutcome> {
    if (this.#open !== null) return Promise.resolve({ status: 'busy' })
    return new Promise((resolve) => {
      const cancel = this.#timers.after(requestMaxMs, () => this.end({ status: 'noAnswer' }))
      this.#open = { request, resolve, cancel }
      send(request)
    })
  }

  /** Who is signed in here now. Another tab's sign-in says so too, and answers only what it fits. */
  signedIn(people: readonly PersonId[]): void {
    if (this.#open === null) return
    const { type, person } = this.#open.request
    const isThere = people.includes(person)
    if (isThere === (type !== 'signOut')) this.end({ status: 'done', signedIn: people })
  }

  /** Takes a fault without a number as the answer to the open request; false when none is open. */
  faulted({ code, n, waitMs }: Fault): boolean {
    if (this.#open === null || n !== undefined) return false
    this.end({ status: 'fault', code, ...(waitMs === undefined ? {} : { waitMs }) })
    return true
  }

  /** Ends the open request, if there is one. */
  end(outcome: SignInOutcome): void {
    const open = this.#open
    if (open === null) return
    this.#open = null
    open.cancel()
    open.resolve(outcome)
  }
}
