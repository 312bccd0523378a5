// What a filled-in correction says: only the birds whose outcome or amount differs from the record. An
// amount somebody typed is a measured one; one they left alone stays what it was. Pure.

import { no, ok, type Result } from '../../shared/base/control.ts'
import type { Amount, BirdId } from '../../shared/base/values.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { RecordedAnswer } from '../../shared/views/deskNest.ts'
import { typedAmount, typedText } from './amountInput.ts'

export type TypedAnswer = { readonly outcome: Outcome; readonly amount: string }

/** The field as it is shown before anybody types. */
export const amountShown = ({ given }: RecordedAnswer): string =>
  given ? typedText(given.amount.n, given.amount.unit) : ''

function answerOf(
  before: RecordedAnswer,
  typed: TypedAnswer,
  unit: Amount['unit'],
): Result<Answer | null, 'unreadable'> {
  const { outcome } = typed
  const isSameAmount = typed.amount.trim() === amountShown(before)
  if (isSameAmount && outcome === before.outcome) return ok(null)
  const { bird } = before
  if (isSameAmount) {
    return ok({ bird, outcome, ...(before.given ? { given: before.given } : {}) })
  }
  const read = typedAmount(typed.amount, before.given?.amount.unit ?? unit)
  if (read.type === 'unreadable') return no('unreadable')
  if (read.type === 'none') return ok({ bird, outcome })
  return ok({ bird, outcome, given: { amount: read.amount, is: 'measured' } })
}

/** The answers to send; `unchanged` where nothing differs. */
export function correctedAnswers(
  recorded: readonly RecordedAnswer[],
  typed: (bird: BirdId) => TypedAnswer,
  unit: Amount['unit'],
): Result<readonly Answer[], 'unreadable' | 'unchanged'> {
  const answers: Answer[] = []
  for (const before of recorded) {
    const answer = answerOf(before, typed(before.bird), unit)
    if (!answer.ok) return answer
    if (answer.value) answers.push(answer.value)
  }
  return answers.length === 0 ? no('unchanged') : ok(answers)
}
