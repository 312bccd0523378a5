// What can be done at the desk: an ask shows that it asks and says why not, a report is kept on the
// device or the failure is said loudly. Which command a press stands for is the parts' own.

import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import { nameOf } from '../../shared/views/names.ts'
import type { SignInOutcome } from '../session/outcomes.ts'
import type { Session } from '../session/session.ts'
import { askRefusal, sendingWords, signInRefusal } from '../ui/askOutcome.ts'
import { SecondTap } from '../ui/secondTap.ts'
import type { Say } from '../ui/words.ts'
import type { Ui, UiState } from './ui.ts'

/** Orders and records without their version, which is always the same here. */
export type Order<Type extends AskType | ReportType> = Omit<CommandOf<Type>, 'v'>

const closed: Partial<UiState> = { form: null, notice: null }

export class DeskActions {
  readonly #session: Session
  readonly #ui: Ui
  readonly #say: Say
  readonly #secondTap = new SecondTap()

  constructor(session: Session, ui: Ui, say: Say) {
    this.#session = session
    this.#ui = ui
    this.#say = say
  }

  change(part: Partial<UiState>): void {
    this.#ui.value = { ...this.#ui.value, ...part }
  }

  /** The room's clock at this very moment; a form may have stood open for a while. */
  nowMs(): InstantMs {
    return this.#session.roomNowMs() ?? 0
  }

  serve(person: PersonId): void {
    this.change({ ...closed, person, signingIn: null, code: null })
  }

  /** Nobody is served here any more; whatever was open is closed. */
  leave(): void {
    this.change({ ...closed, person: null, code: null, nest: null })
  }

  /** Asks, with `press` shown as asking, and closes the form once it is granted. True when it was. */
  async ask(press: string, command: CommandOf<AskType>): Promise<boolean> {
    const { person, asking } = this.#ui.value
    if (person === null || asking !== null) return false
    this.change({ asking: press, notice: null })
    const outcome = await this.#session.ask(person, command)
    this.change({ asking: null })
    if (this.#ui.value.person !== person) return outcome.status === 'applied'
    if (outcome.status === 'applied') this.change(closed)
    else this.change({ notice: askRefusal(outcome, this.#say) })
    return outcome.status === 'applied'
  }

  /** Keeps a record on this device, a second press left out, and closes the form. True when kept. */
  async report(command: CommandOf<ReportType>): Promise<boolean> {
    const { person } = this.#ui.value
    if (person === null) return false
    return this.#secondTap.unlessSame({ person, command }, () => this.#keep(person, command))
  }

  async #keep(person: PersonId, command: CommandOf<ReportType>): Promise<boolean> {
    const outcome = await this.#session.report(person, command)
    if (outcome.status === 'kept') this.change(closed)
    else this.change({ notice: sendingWords[outcome.status] })
    return outcome.status === 'kept'
  }

  signIn(person: PersonId, pin: string): Promise<void> {
    return this.#signed(person, () => this.#session.signIn(person, pin))
  }

  redeem(person: PersonId, secret: { code: string; pin: string }): Promise<void> {
    return this.#signed(person, () => this.#session.redeem(person, secret))
  }

  /** Leaves the desk; a shift is another thing and goes on. */
  async signOut(): Promise<void> {
    const { person } = this.#ui.value
    if (person === null) return
    const outcome = await this.#session.signOut(person)
    if (outcome.status === 'done') this.leave()
    else this.change({ notice: signInRefusal(outcome) })
  }

  /** Puts a person on the board and shows their one-time code, once. */
  async addPerson(press: string, person: Omit<Order<'AddPerson'>, 'type'>): Promise<void> {
    const before = this.#session.snapshot().board?.counters.person ?? 0
    if (!(await this.ask(press, { type: 'AddPerson', v: 1, ...person }))) return
    const { board, names } = this.#session.snapshot()
    const added = Object.values(board?.people ?? {}).find(
      ({ id }) =>
        Number(id.slice(1)) > before && board && nameOf(board, names, id) === person.private.name,
    )
    if (added) await this.issueCode(press, added.id)
  }

  async issueCode(press: string, person: PersonId): Promise<void> {
    this.change({ asking: press, notice: null })
    const outcome = await this.#session.issueCode(person)
    this.change({ asking: null })
    if (outcome.status === 'done') {
      this.change({ code: { person, code: outcome.code, lifeMs: outcome.lifeMs } })
    } else this.change({ notice: signInRefusal(outcome) })
  }

  sendAgain(id: string): void {
    void this.#session.retryStuck(id)
  }

  drop(id: string): void {
    void this.#session.forgetStuck(id)
  }

  async #signed(person: PersonId, attempt: () => Promise<SignInOutcome>): Promise<void> {
    this.change({ asking: 'enter', notice: null })
    const outcome = await attempt()
    this.change({ asking: null })
    if (outcome.status === 'done') this.serve(person)
    else this.change({ notice: signInRefusal(outcome) })
  }
}
