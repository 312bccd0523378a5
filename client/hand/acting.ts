// How the handheld speaks to the session: an ask shows that it asks and says why not, a report is kept
// on the device or the failure is said loudly. What is asked and reported stands in the actions.

import type { PersonId } from '../../shared/base/values.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import type { Session } from '../session/session.ts'
import { askRefusal, sendingWords } from '../ui/askOutcome.ts'
import { SecondTap } from '../ui/secondTap.ts'
import type { Say } from '../ui/words.ts'
import type { Page } from './page.ts'
import { onPage, type Ui } from './ui.ts'

/** Claims whose beginning is remembered; a page that runs all season would keep every one. */
const begunMax = 200

export class Acting {
  readonly session: Session
  readonly ui: Ui
  readonly #say: Say
  readonly #secondTap = new SecondTap()
  /** When this page life saw each claim begin, by its own monotonic clock. */
  readonly #begun = new Map<number, number>()

  constructor(session: Session, ui: Ui, say: Say) {
    this.session = session
    this.ui = ui
    this.#say = say
  }

  get person(): PersonId | null {
    return this.ui.value.person
  }

  goTo(page: Page): void {
    this.ui.value = onPage(this.ui.value, page)
  }

  tell(text: string): void {
    this.ui.value = { ...this.ui.value, notice: { tone: 'refused', text } }
  }

  /** Called whenever a claim is drawn; the first time counts. */
  sawBegin(claimNo: number): void {
    if (this.#begun.has(claimNo)) return
    if (this.#begun.size >= begunMax) this.#begun.clear()
    this.#begun.set(claimNo, this.session.monoNowMs())
  }

  /** The nest was opened now, not when it was claimed. */
  beginsNow(claimNo: number): void {
    this.#begun.set(claimNo, this.session.monoNowMs())
  }

  /** Asks, and goes to `then` once it is granted. True when it was; never queued, one at a time. */
  async ask(command: CommandOf<AskType>, then: Page | null): Promise<boolean> {
    const person = this.person
    if (person === null || this.ui.value.isAsking) return false
    this.ui.value = { ...this.ui.value, isAsking: true, notice: null }
    const outcome = await this.session.ask(person, command)
    this.ui.value = { ...this.ui.value, isAsking: false }
    const isGranted = outcome.status === 'applied'
    // Somebody else may have taken the tablet meanwhile; what was answered is on the board anyway.
    if (this.person !== person) return isGranted
    if (!isGranted) this.tell(askRefusal(outcome, this.#say))
    else if (then) this.goTo(then)
    return isGranted
  }

  /** Keeps a report on the device, a second tap left out. True when it is kept. */
  async report(command: CommandOf<ReportType>, claimNo?: number): Promise<boolean> {
    const { person } = this
    if (person === null) return false
    return this.#secondTap.unlessSame({ person, command }, () =>
      this.#keep(person, command, claimNo),
    )
  }

  async #keep(
    person: PersonId,
    command: CommandOf<ReportType>,
    claimNo: number | undefined,
  ): Promise<boolean> {
    const startedMonoMs = claimNo === undefined ? undefined : this.#begun.get(claimNo)
    const when = startedMonoMs === undefined ? {} : { startedMonoMs }
    const outcome = await this.session.report(person, command, when)
    if (outcome.status === 'notKept') this.tell(sendingWords.notKept)
    if (outcome.status === 'full') this.tell(sendingWords.full)
    return outcome.status === 'kept'
  }

  async reportAndGo(command: CommandOf<ReportType>, page: Page): Promise<void> {
    if (await this.report(command)) this.goTo(page)
  }
}
