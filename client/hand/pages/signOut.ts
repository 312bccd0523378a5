// The end of a shift: what was done in it, and one press that ends it and leaves the device.

import type { ComponentChild } from 'preact'
import { shiftTally } from '../../../shared/views/shiftTally.ts'
import { html } from '../../ui/html.ts'
import { primary, second } from '../../ui/press.ts'
import { shiftWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'
import { pressState } from './claimPress.ts'

const figure = (id: string, n: number, words: string): ComponentChild =>
  html`<div data-testid=${`tally-${id}`}><b>${n}</b> <span>${words}</span></div>`

function tally(hand: Served): ComponentChild {
  const done = shiftTally(hand.board, hand.person)
  if (!done) return null
  return html`<p class="why" data-testid="tally-since">
      ${shiftWords.since(hand.say.time(done.sinceMs))}
    </p>
    <div class="tally">
      ${figure('visits', done.visits, shiftWords.visits(done.visits))}
      ${figure('fed', done.fed, shiftWords.fed(done.fed))}
      ${figure('refused', done.refused, shiftWords.refused(done.refused))}
      ${figure('calls', done.calls, shiftWords.calls(done.calls))}
    </div>`
}

export function signOutPage(hand: Served): ComponentChild {
  const isOnShift = hand.board.people[hand.person]?.shift !== 'off'
  return frame(hand, {
    id: 'sign-out',
    body: html`<h1>${shiftWords.endTitle(hand.say.person(hand.person))}</h1>
      ${tally(hand)}`,
    dock: html`${primary({
      id: 'sign-out',
      text: isOnShift ? shiftWords.end : handWords.signOut,
      small: shiftWords.endSmall,
      onPress: () => void hand.actions.sign.signOut(),
      ...pressState(hand),
    })}
    ${second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'more' }) })}`,
  })
}
