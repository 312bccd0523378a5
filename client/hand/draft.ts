// What fingers have tapped at one visit and not yet saved: an outcome and an amount per bird, the count
// back, the door. Nothing starts filled in. Pure; the pages call it and keep what it returns.

import type { Amount, BirdId, InstantMs, NestId } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import type { notFedReasons, Outcome } from '../../shared/board/constants.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { BirdRow } from '../../shared/views/birdRow.ts'

export type NotFedReason = (typeof notFedReasons)[number]

export type Draft = {
  readonly answers: readonly Answer[]
  /** How many are back in the nest; null until somebody moved the count. */
  readonly back: number | null
  readonly isDoorNotSeen: boolean
  /** Only where a feed of before is entered: the time it is said to have been. */
  readonly saidAtMs: InstantMs | null
}

export const emptyDraft: Draft = { answers: [], back: null, isDoorNotSeen: false, saidAtMs: null }

export const answerOf = (draft: Draft, bird: BirdId): Answer | null =>
  draft.answers.find((answer) => answer.bird === bird) ?? null

const took = (outcome: Outcome): boolean => outcome === 'ate' || outcome === 'assisted'

/** Untouched, a whole feed is the plan's amount; part of one is an amount nobody knows. */
function plannedFor(row: BirdRow, outcome: Outcome): Pick<Answer, 'given'> {
  return took(outcome) && row.planned && !row.hidesAmount
    ? { given: { amount: row.planned, is: 'planned' } }
    : {}
}

const put = (draft: Draft, answer: Answer): Draft => ({
  ...draft,
  answers: [...draft.answers.filter(({ bird }) => bird !== answer.bird), answer],
})

/** One bird's outcome; a second tap replaces it, and the amount with it. */
export const withOutcome = (
  draft: Draft,
  row: BirdRow,
  outcome: Exclude<Outcome, 'notFed'>,
): Draft => put(draft, { bird: row.bird, outcome, ...plannedFor(row, outcome) })

export const withNotFed = (draft: Draft, bird: BirdId, reason: NotFedReason): Draft =>
  put(draft, { bird, outcome: 'notFed', reason })

/** An amount somebody moved is theirs, no longer the plan's. */
export function withAmount(draft: Draft, bird: BirdId, amount: Amount): Draft {
  const answer = answerOf(draft, bird)
  return answer ? put(draft, { ...answer, given: { amount, is: 'measured' } }) : draft
}

/** Birds nobody has answered for yet. One seen with a full crop is not waiting for food. */
export const unanswered = <Row extends BirdRow & { readonly answered?: Outcome | null }>(
  draft: Draft,
  rows: readonly Row[],
): readonly Row[] =>
  rows.filter((row) => !row.answered && row.crop !== 'full' && answerOf(draft, row.bird) === null)

/** The one deliberate tap for all that are left; what was answered before stays as it is. */
export const withAllAte = (draft: Draft, rows: readonly BirdRow[]): Draft =>
  unanswered(draft, rows).reduce((next, row) => withOutcome(next, row, 'ate'), draft)

/** The count as it stands: what somebody moved it to, else the whole brood the button speaks of. */
export const backOf = (draft: Draft, brood: number): number => draft.back ?? brood

export const withBack = (draft: Draft, back: number, brood: number): Draft => ({
  ...draft,
  back: Math.min(brood, Math.max(0, back)),
})

/** The report of this visit; null while no bird is answered. */
export function answerReport(
  draft: Draft,
  of: { readonly nest: NestId; readonly claimNo?: number; readonly brood: number },
): CommandOf<'AnswerBirds'> | null {
  if (draft.answers.length === 0) return null
  return {
    type: 'AnswerBirds',
    v: 1,
    nest: of.nest,
    ...(of.claimNo === undefined ? {} : { claimNo: of.claimNo }),
    answers: [...draft.answers],
    ...(draft.saidAtMs === null
      ? { back: backOf(draft, of.brood), door: draft.isDoorNotSeen ? 'notSeen' : 'shut' }
      : { saidAtMs: draft.saidAtMs }),
  }
}

/** The same without a count: the feeder was called away from an open nest. */
export function leavingReport(
  draft: Draft,
  of: { readonly nest: NestId; readonly claimNo: number },
): CommandOf<'AnswerBirds'> | null {
  if (draft.answers.length === 0) return null
  return {
    type: 'AnswerBirds',
    v: 1,
    nest: of.nest,
    claimNo: of.claimNo,
    answers: [...draft.answers],
  }
}
