// Free hands: the one nest to take next and why, with one big press; or why there is none. Not live
// there is no press to claim with: the nest is said aloud.

import type { ComponentChild } from 'preact'
import { calledOffView } from '../../../shared/views/calledOffView.ts'
import { type NextNest, type NextView, nextView } from '../../../shared/views/nextView.ts'
import { html } from '../../ui/html.ts'
import { pair, primary, second } from '../../ui/press.ts'
import { handWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { lookAgainPresses } from './lookAgains.ts'
import { offered } from './offered.ts'
import { questions } from './question.ts'
import { undoPress } from './undo.ts'
import { waitingLine } from './waiting.ts'

function nothing(hand: Served, view: Exclude<NextView, NextNest>): ComponentChild {
  if (view.type === 'offShift') return html`<h1>${handWords.offShift}</h1>`
  if (view.type === 'onBreak') {
    const back = view.backAtMs === null ? null : hand.say.time(view.backAtMs)
    return html`<h1>${handWords.onBreak(back)}</h1>`
  }
  const next =
    view.nextAtMs === null || view.nextLabel === null
      ? handWords.nothingForYou
      : handWords.nextAt(view.nextLabel, hand.say.time(view.nextAtMs))
  const title =
    view.hours.type === 'closed'
      ? handWords.closedUntil(hand.say.time(view.hours.opensAtMs))
      : handWords.nothingNow
  return html`<h1 data-testid="nothing">${title}</h1>
    <p class="why">${next}</p>`
}

/** What the big press can be just now: it waits for an answer, or for the link. */
function pressState(hand: Served): { isOff: boolean; text?: string; small?: string } {
  if (hand.ui.isAsking) return { isOff: true, text: handWords.asking }
  return hand.snapshot.canAsk
    ? { isOff: false }
    : { isOff: true, text: handWords.connecting, small: '' }
}

function claimPress(hand: Served, next: NextNest): ComponentChild {
  const { nest, label } = next.summary
  const { round } = hand.actions
  if (next.doubts.length > 0) {
    return primary({
      id: 'look-first',
      text: handWords.lookFirst,
      small: handWords.lookFirstSmall(label),
      onPress: () => void round.claim(nest, { seenDoubts: [...next.doubts] }),
      ...pressState(hand),
    })
  }
  return primary({
    id: 'claim',
    text: handWords.claim(label),
    small: handWords.claimSmall,
    onPress: () => void round.claim(nest),
    ...pressState(hand),
  })
}

function bigPress(hand: Served, view: NextView): ComponentChild {
  const { sign } = hand.actions
  if (hand.snapshot.liveness.status === 'notLive') return null
  switch (view.type) {
    case 'nest':
      return claimPress(hand, view)
    case 'offShift':
      return primary({
        id: 'begin-shift',
        text: handWords.beginShift,
        onPress: () => void sign.beginShift(),
        ...pressState(hand),
      })
    case 'onBreak':
      return primary({
        id: 'end-break',
        text: handWords.endBreak,
        onPress: () => void sign.endBreak(),
        ...pressState(hand),
      })
    case 'nothing':
      return null
  }
}

function lostWords(hand: Served): ComponentChild {
  const { liveness } = hand.snapshot
  if (liveness.status !== 'notLive') return null
  const since =
    liveness.sinceMs === null ? '' : handWords.othersMayHave(hand.say.time(liveness.sinceMs))
  return html`<p class="why" data-testid="say-aloud">${since} ${handWords.sayAloud}</p>`
}

function endedWords(hand: Served): ComponentChild {
  const ended = calledOffView(hand.board, hand.person, hand.nowMs)
  if (!ended) return null
  const words = ended.how === 'lapsed' ? handWords.lapsed : handWords.calledOff
  return html`<p class="notice refused" role="alert" data-testid="ended">${words(ended.label)}</p>`
}

export function nextPage(hand: Served): ComponentChild {
  const view = nextView(hand.board, hand.names, hand)
  const first = [
    endedWords(hand),
    waitingLine(hand),
    lostWords(hand),
    ...questions(hand),
    lookAgainPresses(hand),
  ]
  const undo = undoPress(hand)
  const isCrowded = hand.ui.notice !== null || [undo, ...first].some((piece) => piece !== null)
  const size = isCrowded ? 'small' : 'large'
  return frame(hand, {
    id: 'next',
    body: html`
      ${first}
      ${view.type === 'nest' ? offered(hand, view, size) : nothing(hand, view)}
    `,
    dock: html`${undo} ${bigPress(hand, view)}
    ${pair(
      second({ id: 'another', text: handWords.another, onPress: () => hand.go({ type: 'list' }) }),
      second({ id: 'more', text: handWords.more, onPress: () => hand.go({ type: 'more' }) }),
    )}`,
  })
}
