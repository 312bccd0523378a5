// What fingers have tapped at one visit and not yet saved: an outcome and an amount per bird, the count
// back, the door. Nothing starts filled in. Pure; the pages call it and keep what it returns.

import type { Amount, BirdId, InstantMs, NestId } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import type { notFedReasons, Outcome } from '../../shared/board/constants.ts'
import type { Answer, NotKnownWhich } from '../../shared/board/parts.ts'
import type { BirdRow } from '../../shared/views/birdRow.ts'

export type NotFedReason = (typeof notFedReasons)[number]

export type Draft = {
  readonly answers: readonly Answer[]
  /** An unmarked brood of which so many did otherwise, and nobody knows which. */
  readonly notKnownWhich: NotKnownWhich | null
  /** Crops that were looked at without telling anything. */
  readonly cannotTell: readonly BirdId[]
  /** How many are back in the nest; null until somebody moved the count. */
  readonly back: number | null
  readonly isDoorNotSeen: boolean
  /** Only where a feed of before is entered: the time it is said to have been. */
  readonly saidAtMs: InstantMs | null
}

export const emptyDraft: Draft = {
  answers: [],
  notKnownWhich: null,
  cannotTell: [],
  back: null,
  isDoorNotSeen: false,
  saidAtMs: null,
}

export const answerOf = (draft: Draft, bird: BirdId): Answer | null =>
  draft.answers.find((answer) => answer.bird === bird) ?? null

const took = (outcome: Outcome): boolean => outcome === 'ate' || outcome === 'assisted'

/** Untouched, a whole feed is the plan's amount; part of one is an amount nobody knows. */
function plannedFor(row: BirdRow, outcome: Outcome): Pick<Answer, 'given'> {
  return took(outcome) && row.planned && !row.hidesAmount
    ? { given: { amount: row.planned, is: 'planned' } }
    : {}
}

/** What is said of one bird is known of that bird: then nothing stays unknown. */
const put = (draft: Draft, answer: Answer): Draft => ({
  ...draft,
  notKnownWhich: null,
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

/** Birds without bands are told apart by nobody: what one of them did is known only by how many did. */
export const isUnmarked = (rows: readonly BirdRow[]): boolean =>
  rows.length > 1 && rows.every(({ band }) => band === null)

/** So many of the brood did this and the rest ate; where all did, nothing is unknown. */
export function withNotKnownWhich(
  draft: Draft,
  rows: readonly BirdRow[],
  which: NotKnownWhich,
): Draft {
  const { outcome, count } = which
  if (outcome !== 'notFed' && count >= rows.length) {
    return rows.reduce((next, row) => withOutcome(next, row, outcome), draft)
  }
  const ate = rows.reduce((next, row) => withOutcome(next, row, 'ate'), draft)
  return { ...ate, notKnownWhich: which }
}

/** A look that could not tell leaves no trace on the board; here the bird has still been looked at. */
export const withCannotTell = (draft: Draft, bird: BirdId): Draft => ({
  ...draft,
  cannotTell: [...draft.cannotTell.filter((other) => other !== bird), bird],
})

/** The rows as this draft knows their crops. */
export const asLooked = <Row extends BirdRow>(draft: Draft, rows: readonly Row[]): readonly Row[] =>
  rows.map((row) =>
    row.crop === 'look' && draft.cannotTell.includes(row.bird)
      ? { ...row, crop: 'cannotTell', hidesAmount: true }
      : row,
  )

/** The count as it stands: what somebody moved it to, else as many as the button speaks of. */
export const backOf = (draft: Draft, expected: number): number => draft.back ?? expected

export const withBack = (draft: Draft, back: number, brood: number): Draft => ({
  ...draft,
  back: Math.min(brood, Math.max(0, back)),
})

/**
 * The report of this visit; null while no bird is answered. `back` is null where nothing is counted: for
 * a feed of before, and where the feeder was called away from an open nest.
 */
export function answerReport(
  draft: Draft,
  of: { readonly nest: NestId; readonly claimNo?: number; readonly back: number | null },
): CommandOf<'AnswerBirds'> | null {
  if (draft.answers.length === 0) return null
  const door = draft.isDoorNotSeen ? 'notSeen' : 'shut'
  return {
    type: 'AnswerBirds',
    v: 1,
    nest: of.nest,
    ...(of.claimNo === undefined ? {} : { claimNo: of.claimNo }),
    answers: [...draft.answers],
    ...(draft.notKnownWhich ? { notKnownWhich: draft.notKnownWhich } : {}),
    ...(of.back === null ? {} : { back: of.back, door }),
    ...(draft.saidAtMs === null ? {} : { saidAtMs: draft.saidAtMs }),
  }
}
