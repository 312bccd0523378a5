// Every nest of the room, those this person can take first. Any of them opens its own page, where it is
// claimed or the reason why not is said.

import type { ComponentChild } from 'preact'
import { type ListedNest, listView } from '../../../shared/views/listView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { handWords, stateWords } from '../words.ts'
import { nestStateWords } from './nestWords.ts'

function row(hand: Served, one: ListedNest): ComponentChild {
  const waits = hand.waiting.rows.some(({ label }) => label === one.label)
  return html`<button
    type="button"
    key=${one.nest}
    class=${`press second nest ${one.state.type}`}
    data-testid=${`nest-${one.label}`}
    data-state=${one.state.type}
    onClick=${() => hand.go({ type: 'nest', nest: one.nest })}
  >
    <span class="label">${one.label}</span>
    <span class="box">${one.incubatorLabel}</span>
    <span class="what">
      ${nestStateWords(hand, one)}
      ${one.doubt ? html`<small class="doubt">${stateWords.perhaps(hand.say.time(one.doubt.aboutAtMs))}</small>` : null}
      ${waits ? html`<small class="waits">${handWords.waitingHere}</small>` : null}
    </span>
  </button>`
}

export function listPage(hand: Served): ComponentChild {
  return frame(hand, {
    id: 'list',
    body: html`<h1>${handWords.chooseNest}</h1>
      <div class="rows nests">${listView(hand.board, hand.names, hand).map((one) => row(hand, one))}</div>`,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
