// "1 of 5 refused, not known which": what an unmarked brood did, in two taps. Which bird it was is told
// by nobody, so nobody is asked; at half the interval somebody looks for it.

import type { ComponentChild } from 'preact'
import type { NotKnownWhich } from '../../../shared/board/parts.ts'
import { html } from '../../ui/html.ts'
import { choice, second } from '../../ui/press.ts'
import { withNotKnownWhich } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import type { Page } from '../page.ts'
import { draftOf } from '../ui.ts'
import type { Visit } from '../visitOf.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

type Outcome = NotKnownWhich['outcome']
const outcomes: readonly Outcome[] = ['refused', 'some', 'notFed']

function outcomeChoices(hand: Served, chosen: Outcome): ComponentChild {
  return html`<div class="choices three">
    ${outcomes.map((outcome) =>
      choice({
        id: `not-all-${outcome}`,
        text: visitWords.notAllOutcomes[outcome],
        isOn: chosen === outcome,
        onPress: () => hand.change((state) => ({ ...state, picked: [outcome] })),
      }),
    )}
  </div>`
}

/** A whole brood that was not fed has a reason of its own, bird by bird or as a hold; it is not counted here. */
const mostOf = (outcome: Outcome, brood: number): number =>
  outcome === 'notFed' ? brood - 1 : brood

export function notAllPage(
  hand: Served,
  { visit, after }: { readonly visit: Visit; readonly after: Page },
): ComponentChild {
  const { rows, key, label } = visit
  const brood = rows.length
  const outcome = outcomes.find((one) => hand.ui.picked.includes(one)) ?? 'refused'
  const draft = draftOf(hand.ui, key)
  const keep = (count: number) => {
    hand.setDraft(key, withNotKnownWhich(draft, rows, { outcome, count }))
    hand.go(after)
  }
  const counts = Array.from({ length: mostOf(outcome, brood) }, (_, at) => at + 1)
  return frame(hand, {
    id: 'not-all',
    body: html`
      <h1>${visitWords.notAllTitle(label)}</h1>
      ${outcomeChoices(hand, outcome)}
      <div class="choices three counts">
        ${counts.map((count) =>
          second({
            id: `count-${count}`,
            text: count === brood ? visitWords.allOf(brood) : visitWords.ofBrood(count, brood),
            onPress: () => keep(count),
          }),
        )}
      </div>
    `,
    dock: second({
      id: 'back',
      text: handWords.back,
      onPress: () => hand.go(visit.looks ? { type: 'home' } : after),
    }),
  })
}
