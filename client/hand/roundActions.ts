// The round itself: claim, open, answer, save and take the next, and what goes wrong on the way.

import type { BirdId, NestId } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import type { Crop } from '../../shared/board/constants.ts'
import type { ClaimView } from '../../shared/views/claimView.ts'
import type { Acting } from './acting.ts'
import { answerReport, backOf, type Draft } from './draft.ts'
import { home } from './page.ts'
import { claimKey, onPage, saidKey, withoutDraft } from './ui.ts'
import { wrongNest } from './visitWords.ts'

type ClaimOptions = Omit<CommandOf<'ClaimNest'>, 'type' | 'v' | 'nest'>

/** Whether birds of the claim are left that neither the board nor this draft has an answer for. */
const leavesSome = (claim: ClaimView, draft: Draft): boolean =>
  claim.birds.some(
    (bird) => !bird.answered && !draft.answers.some((answer) => answer.bird === bird.bird),
  )

/** How many the count begins with: the brood, without those already missing. */
export const expectedBack = ({ brood, missing }: ClaimView): number => Math.max(0, brood - missing)

export class RoundActions {
  readonly #acting: Acting

  constructor(acting: Acting) {
    this.#acting = acting
  }

  sawBegin(claimNo: number): void {
    this.#acting.sawBegin(claimNo)
  }

  claim(nest: NestId, options: ClaimOptions = {}): Promise<boolean> {
    return this.#acting.ask({ type: 'ClaimNest', v: 1, nest, ...options }, home)
  }

  giveBack({ nest, claimNo }: ClaimView): Promise<boolean> {
    return this.#acting.ask({ type: 'GiveBack', v: 1, nest, claimNo }, home)
  }

  moreTime({ nest, claimNo }: ClaimView): Promise<boolean> {
    return this.#acting.ask({ type: 'MoreTime', v: 1, nest, claimNo }, home)
  }

  async startFeed({ nest, claimNo }: ClaimView): Promise<void> {
    this.#acting.beginsNow(claimNo)
    if (await this.#acting.report({ type: 'StartFeed', v: 1, nest, claimNo }, claimNo)) {
      this.#acting.goTo(home)
    }
  }

  /** The visit is over: its answers with the count back, then the next nest, in the same tap. */
  async save(claim: ClaimView, draft: Draft, next: NestId | null): Promise<void> {
    const { nest, claimNo } = claim
    const back = backOf(draft, expectedBack(claim))
    const isKept = await this.#leave(claim, draft, answerReport(draft, { nest, claimNo, back }))
    if (isKept && next !== null) await this.claim(next)
  }

  /** Somebody was called away from an open nest: nothing is counted back, the rest stays due. */
  async calledAway(claim: ClaimView, draft: Draft): Promise<void> {
    const { nest, claimNo } = claim
    await this.#leave(claim, draft, answerReport(draft, { nest, claimNo, back: null }))
  }

  async #leave(
    claim: ClaimView,
    draft: Draft,
    answers: CommandOf<'AnswerBirds'> | null,
  ): Promise<boolean> {
    const { ui } = this.#acting
    const { nest, claimNo } = claim
    if (answers && !(await this.#acting.report(answers, claimNo))) return false
    const away = { type: 'CalledAway', v: 1, nest, claimNo } as const
    if (leavesSome(claim, draft) && !(await this.#acting.report(away, claimNo))) return false
    ui.value = withoutDraft(onPage(ui.value, home), claimKey(claimNo))
    return true
  }

  say(nest: NestId, claimNo: number, said: CommandOf<'SayWhatHappened'>['said']): Promise<void> {
    return this.#acting.reportAndGo({ type: 'SayWhatHappened', v: 1, nest, claimNo, said }, home)
  }

  looked(nest: NestId, birds: readonly BirdId[], crop: Crop): Promise<void> {
    const looks = birds.map((bird) => ({ bird, crop }))
    return this.#acting.reportAndGo({ type: 'Looked', v: 1, nest, looks }, home)
  }

  takeBack(nest: NestId, claimNo: number, wasFed?: 'yes' | 'no' | 'unknown'): Promise<void> {
    const answer = wasFed ? { wasFed } : {}
    return this.#acting.reportAndGo({ type: 'TakeBackFeed', v: 1, nest, claimNo, ...answer }, home)
  }

  /** "That was F, not E": the whole record goes to the nest that was really fed. */
  fedOther(nest: NestId, claimNo: number, toNest: NestId): Promise<void> {
    const answers: [] = []
    return this.#acting.reportAndGo(
      { type: 'CorrectFeed', v: 1, nest, claimNo, answers, reason: wrongNest, toNest },
      home,
    )
  }

  /** A feed of before, at the time the person says. */
  async saidFeed(nest: NestId, draft: Draft): Promise<void> {
    const { ui } = this.#acting
    const answers = answerReport(draft, { nest, back: null })
    if (!answers || !(await this.#acting.report(answers))) return
    ui.value = withoutDraft(onPage(ui.value, home), saidKey(nest))
  }
}
