// Free hands: the one nest to take next and why, with one big press; or why there is none. Not live
// there is no press to claim with: the nest is said aloud.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../../shared/base/control.ts'
import { calledOffView } from '../../../shared/views/calledOffView.ts'
import { type NextNest, type NextView, nextView } from '../../../shared/views/nextView.ts'
import { html } from '../../ui/html.ts'
import { pair, primary, second, three } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { shiftWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'
import { alreadyFedPress } from './alreadyFed.ts'
import { callLines } from './callLines.ts'
import { claimPress, pressState } from './claimPress.ts'
import { lookAgainPresses } from './lookAgains.ts'
import { nextNestLines } from './nextNestLines.ts'
import { noticesLine } from './notices.ts'
import { questions } from './question.ts'
import { undoPress } from './undo.ts'
import { waitingLine } from './waiting.ts'

function nothingNow(
  hand: Served,
  view: Extract<NextView, { readonly type: 'nothing' }>,
): ComponentChild {
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

function nothing(hand: Served, view: Exclude<NextView, NextNest>): ComponentChild {
  switch (view.type) {
    case 'offShift':
      return html`<h1>${handWords.offShift}</h1>`
    case 'onBreak': {
      const back = view.backAtMs === null ? null : hand.say.time(view.backAtMs)
      return html`<h1>${handWords.onBreak(back)}</h1>`
    }
    case 'mentorAway':
      return html`<h1 data-testid="mentor-away">
          ${view.hasMentor ? shiftWords.mentorAway(view.name ?? formerHelper) : shiftWords.noMentor}
        </h1>
        <p class="why">${shiftWords.mentorWhy}</p>`
    case 'nothing':
      return nothingNow(hand, view)
    default:
      return unreachable(view)
  }
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
    case 'mentorAway':
    case 'nothing':
      return null
    default:
      return unreachable(view)
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
    noticesLine(hand),
  ]
  const undo = undoPress(hand)
  const pieces = [undo, callLines(hand, null), ...first]
  const isCrowded = hand.ui.notice !== null || pieces.some((piece) => piece !== null)
  const another = second({
    id: 'another',
    text: handWords.another,
    onPress: () => hand.go({ type: 'list' }),
  })
  const more = second({
    id: 'more',
    text: handWords.more,
    onPress: () => hand.go({ type: 'more' }),
  })
  const others =
    view.type === 'nest'
      ? three(alreadyFedPress(hand, view.summary.nest, home), another, more)
      : pair(another, more)
  return frame(hand, {
    id: 'next',
    body: html`
      ${first}
      ${view.type === 'nest' ? nextNestLines(hand, view, isCrowded ? 'small' : 'large') : nothing(hand, view)}
    `,
    dock: html`${undo} ${bigPress(hand, view)} ${others}`,
  })
}
