// What is not the round: a box at the door, open calls, a break, the end of the shift, who else is
// served here, what waits to be saved, where this screen stands; and for a lead what they are told.

import type { ComponentChild } from 'preact'
import { hasRight } from '../../../shared/board/rights.ts'
import { callsView } from '../../../shared/views/callsView.ts'
import { noticesView } from '../../../shared/views/noticesView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { callWords, leadWords, noticeWords, shiftWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home, type Page } from '../page.ts'
import { handWords } from '../words.ts'
import { placePress } from './place.ts'

type To = { readonly id: string; readonly text: string; readonly small?: string }

const to = (hand: Served, page: Page, what: To): ComponentChild =>
  second({ ...what, onPress: () => hand.go(page) })

function shiftPress(hand: Served): ComponentChild {
  const { shift } = hand.board.people[hand.person] ?? { shift: 'off' }
  const isOff = hand.ui.isAsking || !hand.snapshot.canAsk
  if (shift === 'on')
    return to(hand, { type: 'break' }, { id: 'break', text: handWords.beginBreak })
  const { sign } = hand.actions
  return shift === 'break'
    ? second({
        id: 'end-break',
        text: handWords.endBreak,
        isOff,
        onPress: () => void sign.endBreak(),
      })
    : second({
        id: 'begin-shift',
        text: handWords.beginShift,
        isOff,
        onPress: () => void sign.beginShift(),
      })
}

function leadPresses(hand: Served): ComponentChild {
  const actor = hand.board.people[hand.person]
  if (!actor || !hasRight(actor, 'lead')) return null
  const unread = noticesView(hand.board, hand.names, hand.person).length
  return html`
    ${to(hand, { type: 'notices' }, { id: 'notices', text: noticeWords.title, small: noticeWords.unread(unread) })}
    ${to(hand, { type: 'mentors', trainee: null }, { id: 'mentors', text: leadWords.mentors })}
  `
}

export function morePage(hand: Served): ComponentChild {
  const open = callsView(hand.board, hand.names, hand).length
  return frame(hand, {
    id: 'more',
    body: html`<h1>${handWords.more}</h1>
      <div class="choices">
      ${to(hand, { type: 'box' }, { id: 'box', text: handWords.boxArrived })}
      ${to(hand, { type: 'calls' }, { id: 'calls', text: callWords.open, small: callWords.count(open) })}
      ${shiftPress(hand)} ${to(hand, { type: 'signOut' }, { id: 'end-shift', text: shiftWords.end })}
      ${to(hand, { type: 'people' }, { id: 'switch', text: handWords.switchPerson })}
      ${to(hand, { type: 'waiting' }, { id: 'records', text: handWords.notSaved, small: String(hand.waiting.count) })}
      ${leadPresses(hand)} ${placePress(hand)}
    </div>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
