// What this person will be asked once their hands are free, as one still line while a nest is in hand:
// no question takes the page, moves or asks for a tap until the visit is over. Calls and missing birds
// have their lines in the frame of every page.

import type { ComponentChild } from 'preact'
import { doubtQuestions } from '../../../shared/views/doubtQuestions.ts'
import { html } from '../../ui/html.ts'
import type { Served } from '../hand.ts'
import { visitWords } from '../visitWords.ts'

/** The oldest question and how many more there are; nothing where nothing waits. */
export function stillLine(hand: Served): ComponentChild {
  const [first, ...others] = doubtQuestions(hand.board, hand.person)
  if (first === undefined) return null
  return html`<p class="still" data-testid="still">
    ${visitWords.stillAsked(first.label, hand.say.time(first.aboutAtMs))}
    ${others.length > 0 ? visitWords.stillMore(others.length) : null}
  </p>`
}
