// Beside the feed: called away, more time, a hold, giving it back. One tap from the
// claim, so that the feed itself stays one page with one press.

import type { ComponentChild } from 'preact'
import type { ClaimView } from '../../../shared/views/claimView.ts'
import { html } from '../../ui/html.ts'
import { pair, second } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { claimKey, draftOf } from '../ui.ts'
import { handWords } from '../words.ts'

function moreTimePress(hand: Served, claim: ClaimView): ComponentChild {
  const untilMs = claim.moreTimeUntilMs
  return second({
    id: 'more-time',
    text: handWords.moreTime,
    small:
      untilMs === null ? handWords.noMoreTime : handWords.moreTimeSmall(hand.say.time(untilMs)),
    isOff: untilMs === null || !hand.snapshot.canAsk || hand.ui.isAsking,
    onPress: () => void hand.actions.round.moreTime(claim),
  })
}

function leavePresses(hand: Served, claim: ClaimView): ComponentChild {
  const { round } = hand.actions
  const draft = draftOf(hand.ui, claimKey(claim.claimNo))
  const calledAway = second({
    id: 'called-away',
    text: handWords.calledAway,
    small: handWords.calledAwaySmall,
    onPress: () => void round.calledAway(claim, draft),
  })
  const hold = second({
    id: 'hold-bird',
    text: handWords.holdBird,
    onPress: () => hand.go({ type: 'hold', nest: claim.nest, what: null }),
  })
  return html`${pair(calledAway, moreTimePress(hand, claim))} ${hold}`
}

/** Untouched it simply goes back; otherwise somebody says what became of the birds. */
function endPresses(hand: Served, claim: ClaimView): ComponentChild {
  const { round } = hand.actions
  if (claim.canGiveBack) {
    return second({
      id: 'give-back',
      text: handWords.giveBack(claim.label),
      small: handWords.giveBackSmall,
      isOff: !hand.snapshot.canAsk || hand.ui.isAsking,
      onPress: () => void round.giveBack(claim),
    })
  }
  const say = (said: 'all' | 'none') => () =>
    void round.say(claim.nest, claim.claimNo, { type: said })
  return html`<h2>${handWords.sayFirst(claim.label)}</h2>
    <div class="three">
      ${second({ id: 'happened-all', text: handWords.all, onPress: say('all') })}
      ${second({
        id: 'happened-some',
        text: handWords.some,
        onPress: () => hand.go({ type: 'whichFed', nest: claim.nest, no: claim.claimNo }),
      })}
      ${second({ id: 'happened-none', text: handWords.none, onPress: say('none') })}
    </div>`
}

export function asidePage(hand: Served, claim: ClaimView): ComponentChild {
  return frame(hand, {
    id: 'aside',
    body: html`
      <h1>${handWords.yours(claim.label)}</h1>
      ${leavePresses(hand, claim)} ${endPresses(hand, claim)}
    `,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
