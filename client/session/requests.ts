// Signing in, first sign-in, signing out, a code for somebody else, the room's last records: asked over
// the live link, answered or given up. They have no number and are never kept: a person who got no
// answer sees it and taps again. What people ask for goes one at a time; the records a page reads by
// itself stand in nobody's way.

import type { PersonId } from '../../shared/base/values.ts'
import type { FromScreen, ToOne } from '../../shared/wire/frames.ts'
import { OneRequest } from './oneRequest.ts'
import type { CodeOutcome, NotDone, RecordsOutcome, SignInOutcome } from './outcomes.ts'
import type { Timers } from './ports.ts'

export type RequestFrame = Extract<
  FromScreen,
  { type: 'signIn' | 'redeem' | 'signOut' | 'issueCode' | 'recentRecords' }
>

export interface RequestRoom {
  readonly isLive: boolean
  send(frame: RequestFrame): void
}

export class Requests {
  readonly #room: RequestRoom
  readonly #personal: OneRequest
  readonly #reading: OneRequest

  constructor(room: RequestRoom, timers: Timers) {
    this.#room = room
    this.#personal = new OneRequest(timers)
    this.#reading = new OneRequest(timers)
  }

  /** Who is signed in here may be told because of another tab too, and answers only what it fits. */
  signing(
    request: Extract<RequestFrame, { type: 'signIn' | 'redeem' | 'signOut' }>,
  ): Promise<SignInOutcome> {
    const isWanted = request.type !== 'signOut'
    return this.#ask(this.#personal, request, (frame) =>
      frame.type === 'signedIn' && frame.people.includes(request.person) === isWanted
        ? { status: 'done', signedIn: frame.people }
        : null,
    )
  }

  code(person: PersonId): Promise<CodeOutcome> {
    return this.#ask(this.#personal, { type: 'issueCode', person }, (frame) =>
      frame.type === 'code' && frame.person === person
        ? { status: 'done', code: frame.code, lifeMs: frame.lifeMs }
        : null,
    )
  }

  records(count: number): Promise<RecordsOutcome> {
    return this.#ask(this.#reading, { type: 'recentRecords', count }, (frame) =>
      frame.type === 'records' ? { status: 'done', records: frame.records } : null,
    )
  }

  /** Ends the request this frame answers; false where it answers none. */
  heard(frame: ToOne): boolean {
    return this.#personal.heard(frame) || this.#reading.heard(frame)
  }

  /** Ends whatever is open. */
  end(outcome: NotDone): void {
    this.#personal.end(outcome)
    this.#reading.end(outcome)
  }

  #ask<Done>(
    line: OneRequest,
    request: RequestFrame,
    read: (frame: ToOne) => Done | null,
  ): Promise<Done | NotDone> {
    if (!this.#room.isLive) return Promise.resolve({ status: 'notLive' })
    return line.ask(read, () => this.#room.send(request))
  }
}
