// Records this device has noted and the room has not saved: drawn with a broken outline, counted, with
// the age of the oldest. They go by themselves; only what the server would not take asks for a person.

import type { ComponentChild } from 'preact'
import type { WaitingRow } from '../../../shared/views/waitingView.ts'
import type { StuckEntry } from '../../session/ports.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { pair, second } from '../../ui/press.ts'
import { faultWords, refusalWords } from '../../ui/refusalWords.ts'
import { commandWords, tallyWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Hand } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'

/** The line that opens this page; none while all is saved. */
export function waitingLine(hand: Hand): ComponentChild {
  const { count, oldestMs } = hand.waiting
  const stuck = hand.snapshot.stuck.length
  if (count === 0 && stuck === 0) return null
  return html`<button
    type="button"
    class=${stuck > 0 ? 'waits stuck' : 'waits'}
    data-testid="waiting"
    onClick=${() => hand.go({ type: 'waiting' })}
  >
    ${count > 0 ? html`<b>${handWords.records(count)}</b> <span>${handWords.oldest(wholeMinutes(oldestMs))}</span>` : null}
    ${stuck > 0 ? html`<b>${handWords.stuck(stuck)}</b>` : null}
  </button>`
}

function row(hand: Hand, one: WaitingRow): ComponentChild {
  const what = one.tally.length > 0 ? tallyWords(one.tally) : commandWords[one.type]
  return html`<li class="waits" key=${one.id} data-testid="waiting-row">
    <b>${one.label ?? ''}</b> <span>${what}</span>
    <span>${hand.say.time(one.notedAtMs)} ${handWords.waits}</span>
  </li>`
}

function whyStuck(hand: Hand, { why }: StuckEntry): string {
  return why.type === 'fault' ? faultWords[why.code] : refusalWords(why.why, hand.say)
}

function stuckCard(hand: Hand, one: StuckEntry): ComponentChild {
  const { brood } = hand.actions
  return html`<section class="card" key=${one.id} data-testid="stuck-row">
    <h2>${commandWords[one.body.type]}</h2>
    <p>${whyStuck(hand, one)}</p>
    ${pair(
      second({
        id: `again-${one.id}`,
        text: handWords.again,
        isOff: one.number === 'owed',
        onPress: () => brood.sendAgain(one.id),
      }),
      second({ id: `drop-${one.id}`, text: handWords.discard, onPress: () => brood.drop(one.id) }),
    )}
  </section>`
}

export function waitingPage(hand: Hand): ComponentChild {
  const { rows, count } = hand.waiting
  const { stuck } = hand.snapshot
  return frame(hand, {
    id: 'waiting',
    body: html`
      <h1>${count === 0 && stuck.length === 0 ? handWords.nothingWaits : handWords.records(count)}</h1>
      ${count > 0 ? html`<p>${handWords.goByThemselves}</p>` : null}
      <ul class="rows">
        ${rows.map((one) => row(hand, one))}
      </ul>
      ${stuck.map((one) => stuckCard(hand, one))}
    `,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) }),
  })
}
