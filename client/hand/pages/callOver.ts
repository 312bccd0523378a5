// What became of a call: a ready phrase in one tap, or somebody's own words. It is the only page of the
// handheld on which anything is typed, and nothing has to be.

import type { ComponentChild } from 'preact'
import { noteMax } from '../../../shared/board/constants.ts'
import type { CallShown } from '../../../shared/views/callsView.ts'
import { html } from '../../ui/html.ts'
import { outcomesOfCalls } from '../../ui/openWords.ts'
import { second } from '../../ui/press.ts'
import { callWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'
import { callTitle } from './callTitle.ts'

function ownWords(hand: Served, { request }: CallShown): ComponentChild {
  const { words, isAsking } = hand.ui
  return html`<label class="own-words">
      <span>${callWords.orWrite}</span>
      <textarea
        data-testid="own-words"
        rows="2"
        maxlength=${noteMax}
        value=${words}
        onInput=${({ currentTarget }: { currentTarget: HTMLTextAreaElement }) =>
          hand.change((state) => ({ ...state, words: currentTarget.value }))}
      ></textarea>
    </label>
    ${second({
      id: 'save-words',
      text: callWords.saveWords,
      isOff: words.trim() === '' || isAsking || !hand.snapshot.canAsk,
      onPress: () => void hand.actions.call.resolve(request, words.trim()),
    })}`
}

export function callOverPage(hand: Served, call: CallShown): ComponentChild {
  const { request, kind } = call
  return frame(hand, {
    id: 'call-over',
    call: request,
    body: html`<h1>${callTitle(call)}</h1>
      <p class="why">${callWords.whatBecame}</p>
      <div class="choices">
        ${outcomesOfCalls[kind].map((note) =>
          second({
            id: `over-${note}`,
            text: note,
            isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
            onPress: () => void hand.actions.call.resolve(request, note),
          }),
        )}
      </div>
      ${ownWords(hand, call)}`,
    dock: second({
      id: 'back',
      text: handWords.back,
      onPress: () => hand.go({ type: 'call', request }),
    }),
  })
}
