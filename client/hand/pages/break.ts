// A break, with the time somebody is back: the wall names it, and nobody is asked for a nest meanwhile.

import type { ComponentChild } from 'preact'
import { minuteMs } from '../../../shared/base/values.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { shiftWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

const breakMinutes = [10, 15, 20, 30, 60] as const

export function breakPage(hand: Served): ComponentChild {
  const { sign } = hand.actions
  const isOff = hand.ui.isAsking || !hand.snapshot.canAsk
  return frame(hand, {
    id: 'break',
    body: html`<h1>${shiftWords.breakTitle}</h1>
      <div class="choices">
        ${breakMinutes.map((minutes) => {
          const backAtMs = hand.nowMs + minutes * minuteMs
          return second({
            id: `back-in-${minutes}`,
            text: shiftWords.minutes(minutes),
            small: shiftWords.backAt(hand.say.time(backAtMs)),
            isOff,
            onPress: () => void sign.beginBreak(backAtMs),
          })
        })}
        ${second({
          id: 'back-unknown',
          text: shiftWords.noTime,
          isOff,
          onPress: () => void sign.beginBreak(null),
        })}
      </div>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'more' }) }),
  })
}
