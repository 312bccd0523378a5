// "Did you feed F at about 9:10?": asked quietly of whoever had the nest, above whatever else they do.

import type { ComponentChild } from 'preact'
import { type DoubtQuestion, doubtQuestions } from '../../../shared/views/doubtQuestions.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

function question(hand: Served, one: DoubtQuestion): ComponentChild {
  const { round } = hand.actions
  const say = (said: 'all' | 'none') => () => void round.say(one.nest, one.no, { type: said })
  return html`<section class="card" key=${one.no} data-testid=${`question-${one.label}`}>
    <h2>${handWords.didYouFeed(one.label, hand.say.time(one.aboutAtMs))}</h2>
    <div class="three">
      ${second({ id: `said-all-${one.label}`, text: handWords.all, onPress: say('all') })}
      ${second({
        id: `said-some-${one.label}`,
        text: handWords.some,
        isOff: one.birds.length < 2,
        onPress: () => hand.go({ type: 'whichFed', nest: one.nest, no: one.no }),
      })}
      ${second({ id: `said-none-${one.label}`, text: handWords.none, onPress: say('none') })}
    </div>
  </section>`
}

/** The questions that are this person's to answer, oldest first; empty when there are none. */
export const questions = (hand: Served): readonly ComponentChild[] =>
  doubtQuestions(hand.board, hand.person).map((one) => question(hand, one))
