// Every open call of the room, and who has it.

import type { ComponentChild } from 'preact'
import { type CallShown, callsView } from '../../../shared/views/callsView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { callWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'
import { callTitle } from './callTitle.ts'

function whoWords(hand: Served, call: CallShown): string {
  if (call.taken) return callWords.isComing(call.taken.name ?? formerHelper)
  return call.asked.length === 0
    ? callWords.askedNobody
    : callWords.askedWho(call.asked.map(hand.say.person))
}

export function callsPage(hand: Served): ComponentChild {
  const calls = callsView(hand.board, hand.names, hand)
  return frame(hand, {
    id: 'calls',
    body: html`<h1>${calls.length === 0 ? callWords.noneOpen : callWords.open}</h1>
      <div class="rows">
        ${calls.map((call) =>
          second({
            id: `call-row-${call.request}`,
            text: callTitle(call),
            small: `${hand.say.time(call.raisedAtMs)}. ${whoWords(hand, call)}`,
            onPress: () => hand.go({ type: 'call', request: call.request }),
          }),
        )}
      </div>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
