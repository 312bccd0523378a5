// "Look again: E, red. Cool to touch.": asked of whoever set the hold, and of the lead, until it is
// lifted or set anew; and arrivals whose look is due. The press leads to the nest, where it is done.

import type { ComponentChild } from 'preact'
import { lookAgains } from '../../../shared/views/lookAgains.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { bandWords } from '../../ui/words.ts'
import { leadWords } from '../callWords.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

/** More at once would push the next nest off the page; the others follow when these are dealt with. */
const shownMax = 2

/** The looks this person is asked for; null when there are none. */
export function lookAgainPresses(hand: Served): ComponentChild {
  const asked = lookAgains(hand.board, hand.person, hand.nowMs)
  if (asked.length === 0) return null
  return html`<section class="card" data-testid="look-agains">
    ${asked.slice(0, shownMax).map((one) =>
      second({
        id: `look-again-${one.label}`,
        text: handWords.lookAgainAt(one.label, one.bird === null ? null : bandWords(one.bird)),
        small: handWords.lookAgainWhy(
          one.reason ?? leadWords.warming,
          one.isOverdue ? wholeMinutes(hand.nowMs - one.lookAgainAtMs) : null,
        ),
        onPress: () => hand.go({ type: 'nest', nest: one.nest }),
      }),
    )}
    ${asked.length > shownMax ? html`<p>${handWords.moreLooks(asked.length - shownMax)}</p>` : null}
  </section>`
}
