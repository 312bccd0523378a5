// The birds of a visit as rows to tap: band, what was answered, how much. Shared by the claim in hand
// and by a feed entered afterwards. Nothing is filled in until a finger has said it.

import type { ComponentChild } from 'preact'
import type { Answer } from '../../../shared/board/parts.ts'
import type { BirdRow } from '../../../shared/views/birdRow.ts'
import type { ClaimedBird } from '../../../shared/views/claimView.ts'
import { html } from '../../ui/html.ts'
import { bandMark } from '../../ui/shapes.ts'
import { amountWords, bandWords, cropWords, notFedWords, outcomeWords } from '../../ui/words.ts'
import { answerOf, type Draft } from '../draft.ts'
import { handWords } from '../words.ts'

/** "0.6 mL" as entered, or "planned 0.6 mL" while nobody has touched it. */
export function givenWords(answer: Answer): string {
  if (!answer.given) return ''
  const amount = amountWords(answer.given.amount)
  return answer.given.is === 'planned' ? handWords.planned(amount) : amount
}

function outcome(row: BirdRow & Partial<ClaimedBird>, answer: Answer | null): ComponentChild {
  if (answer) {
    const why = answer.reason ? `: ${notFedWords[answer.reason]}` : ''
    return html`<b>${outcomeWords[answer.outcome]}${why}</b> <small class="given">${givenWords(answer)}</small>`
  }
  if (row.answered) return html`<b>${outcomeWords[row.answered]}</b>`
  if (row.crop !== 'notDoubted') return html`<b>${cropWords[row.crop]}</b>`
  return html`<small>${row.planned && !row.hidesAmount ? handWords.planned(amountWords(row.planned)) : ''}</small>`
}

/** One row a bird; `onPress` opens it. */
export function birdRows(
  rows: readonly (BirdRow & Partial<ClaimedBird>)[],
  draft: Draft,
  onPress: (row: BirdRow) => void,
): ComponentChild {
  return html`<div class=${rows.length > 3 ? 'birds two' : 'birds'}>
    ${rows.map((row) => {
      const answer = answerOf(draft, row.bird)
      const isAnswered = answer !== null || Boolean(row.answered)
      return html`<button
        type="button"
        key=${row.bird}
        class=${isAnswered ? 'press second bird answered' : 'press second bird'}
        data-testid=${`bird-${row.bird}`}
        data-answer=${answer?.outcome ?? row.answered ?? 'none'}
        onClick=${() => onPress(row)}
      >
        ${bandMark(row.band)}
        <span class="name">${bandWords(row)}</span>
        <span class="answer">${outcome(row, answer)}</span>
      </button>`
    })}
  </div>`
}
