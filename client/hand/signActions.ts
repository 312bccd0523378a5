// Who the device serves: signing in and out, switching, and the shift that goes with it.

import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import type { SignInOutcome } from '../session/outcomes.ts'
import { signInRefusal } from '../ui/askOutcome.ts'
import type { Acting } from './acting.ts'
import { home } from './page.ts'
import { onPage } from './ui.ts'

export class SignActions {
  readonly #acting: Acting

  constructor(acting: Acting) {
    this.#acting = acting
  }

  /** Turns to a person already signed in here, and begins their shift if it has not begun. */
  serve(person: PersonId): void {
    const { ui, session } = this.#acting
    ui.value = { ...onPage(ui.value, home), person }
    if (session.snapshot().board?.people[person]?.shift === 'off') void this.beginShift()
  }

  signIn(person: PersonId, pin: string): Promise<void> {
    return this.#signed(this.#acting.session.signIn(person, pin), person)
  }

  redeem(person: PersonId, secret: { code: string; pin: string }): Promise<void> {
    return this.#signed(this.#acting.session.redeem(person, secret), person)
  }

  /** Ends the shift, and only then leaves the device. */
  async signOut(): Promise<void> {
    const { ui, session, person } = this.#acting
    if (person === null) return
    const isOn = session.snapshot().board?.people[person]?.shift !== 'off'
    if (isOn && !(await this.#acting.ask({ type: 'EndShift', v: 1 }, null))) return
    const outcome = await session.signOut(person)
    if (outcome.status === 'done') ui.value = { ...onPage(ui.value, home), person: null }
    else this.#acting.tell(signInRefusal(outcome))
  }

  beginShift(): Promise<boolean> {
    return this.#acting.ask({ type: 'BeginShift', v: 1 }, null)
  }

  /** `backAtMs` is null for somebody who cannot say. */
  beginBreak(backAtMs: InstantMs | null): Promise<boolean> {
    const back = backAtMs === null ? {} : { backAtMs }
    return this.#acting.ask({ type: 'BeginBreak', v: 1, ...back }, home)
  }

  endBreak(): Promise<boolean> {
    return this.#acting.ask({ type: 'EndBreak', v: 1 }, home)
  }

  async #signed(attempt: Promise<SignInOutcome>, person: PersonId): Promise<void> {
    const { ui } = this.#acting
    ui.value = { ...ui.value, isAsking: true, notice: null }
    const outcome = await attempt
    ui.value = { ...ui.value, isAsking: false }
    if (outcome.status === 'done') return this.serve(person)
    // The pad is emptied, so that the next try begins at its first figure.
    this.#acting.goTo(ui.value.page)
    this.#acting.tell(signInRefusal(outcome))
  }
}
