// What waits while a nest is in hand, as one still line at the top: nothing else takes the page, moves or
// asks for a tap until the visit is over. Each part of the handheld that asks something adds its
// sentences to `waitingSentences`.

import type { ComponentChild } from 'preact'
import { doubtQuestions } from '../../../shared/views/doubtQuestions.ts'
import { html } from '../../ui/html.ts'
import type { Served } from '../hand.ts'
import { visitWords } from '../visitWords.ts'

function askedLater(hand: Served): readonly string[] {
  return doubtQuestions(hand.board, hand.person).map(({ label, aboutAtMs }) =>
    visitWords.stillAsked(label, hand.say.time(aboutAtMs)),
  )
}

/** What this person will be asked or told once their hands are free, the most pressing first. */
const waitingSentences = (hand: Served): readonly string[] => [...askedLater(hand)]

/** The most pressing sentence and how many more there are; nothing where nothing waits. */
export function stillLine(hand: Served): ComponentChild {
  const [first, ...others] = waitingSentences(hand)
  if (first === undefined) return null
  return html`<p class="still" data-testid="still">
    ${first} ${others.length > 0 ? visitWords.stillMore(others.length) : null}
  </p>`
}
