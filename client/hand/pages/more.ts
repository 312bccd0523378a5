// What is not the round: a box at the door, a break, leaving the shift, what waits to be saved.

import type { ComponentChild } from 'preact'
import { html } from '../../ui/html.ts'
import { pair, second } from '../../ui/press.ts'
import { handWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'

export function morePage(hand: Served): ComponentChild {
  const { sign } = hand.actions
  const isOff = hand.ui.isAsking || !hand.snapshot.canAsk
  const isOnBreak = hand.board.people[hand.person]?.shift === 'break'
  return frame(hand, {
    id: 'more',
    body: html`
      ${second({ id: 'box', text: handWords.boxArrived, onPress: () => hand.go({ type: 'box' }) })}
      ${pair(
        isOnBreak
          ? second({
              id: 'end-break',
              text: handWords.endBreak,
              isOff,
              onPress: () => void sign.endBreak(),
            })
          : second({
              id: 'break',
              text: handWords.beginBreak,
              isOff,
              onPress: () => void sign.beginBreak(),
            }),
        second({
          id: 'sign-out',
          text: handWords.signOut,
          isOff,
          onPress: () => void sign.signOut(),
        }),
      )}
      ${pair(
        second({
          id: 'switch',
          text: handWords.switchPerson,
          onPress: () => hand.go({ type: 'people' }),
        }),
        second({
          id: 'records',
          text: handWords.notSaved,
          small: String(hand.waiting.count),
          onPress: () => hand.go({ type: 'waiting' }),
        }),
      )}
    `,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
