// Birds that come in: a box put on the board in a few taps, and the release of warmed birds to feeding
// under a care plan. Who may release is the rules' to say.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { freeLabel } from '../../../shared/views/freeLabel.ts'
import { byLabel } from '../../../shared/views/nestOrder.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { amountWords, techniqueWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import type { BoxDraft } from '../ui.ts'
import { handWords } from '../words.ts'

const counts = [1, 2, 3, 4, 5, 6, 7, 8, 9] as const
const sizes = ['small', 'medium', 'large', 'unknown'] as const

function boxChoices(hand: Served): ComponentChild {
  const { box } = hand.ui
  const set = (part: Partial<BoxDraft>) => () =>
    hand.change((state) => ({ ...state, box: { ...state.box, ...part } }))
  const incubators = Object.values(hand.board.incubators).sort(byLabel)
  return html`
    <div class="choices three">
      ${counts.map((n) =>
        choice({ id: `box-${n}`, text: n, isOn: box.howMany === n, onPress: set({ howMany: n }) }),
      )}
    </div>
    <div class="choices">
      ${sizes.map((size) =>
        choice({
          id: `box-${size}`,
          text: handWords.sizes[size],
          isOn: box.size === size,
          onPress: set({ size }),
        }),
      )}
    </div>
    <h2>${handWords.incubatorTitle}</h2>
    <div class="choices three">
      ${incubators.map(({ id, label }) =>
        choice({
          id: `box-incubator-${label}`,
          text: label,
          isOn: box.incubator === id,
          onPress: set({ incubator: id }),
        }),
      )}
    </div>
  `
}

function saveBox(hand: Served, label: string): void {
  const { howMany, size, incubator } = hand.ui.box
  const where = Object.values(hand.board.incubators).find(({ id }) => id === incubator)
  if (howMany === null || size === null || !where) return
  void hand.actions.brood.boxArrived({ label, incubator: where.id, howMany, size })
}

export function boxPage(hand: Served): ComponentChild {
  const { howMany, size, incubator } = hand.ui.box
  const label = freeLabel(hand.board)
  return frame(hand, {
    id: 'box',
    body: html`<h1>${handWords.boxTitle}</h1>
      ${boxChoices(hand)}`,
    dock: html`
      ${primary({
        id: 'box-save',
        text: handWords.boxSave,
        small: handWords.boxLabel(label),
        isOff: howMany === null || size === null || incubator === null,
        onPress: () => saveBox(hand, label),
      })}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) })}
    `,
  })
}

export function releasePage(hand: Served, nest: NestId): ComponentChild {
  const view = nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })
  if (!view) return null
  const birds = view.birds.filter((row) => row.isSettling).map((row) => row.bird)
  const plans = Object.values(hand.board.plans).sort(byLabel)
  return frame(hand, {
    id: 'release',
    body: html`
      <h1>${handWords.releaseTitle(view.summary.label)}</h1>
      <div class="rows">
        ${plans.map((plan) =>
          second({
            id: `plan-${plan.id}`,
            text: handWords.each(plan.label, plan.planned ? amountWords(plan.planned) : null),
            small: techniqueWords[plan.technique],
            isOff: hand.ui.isAsking || !hand.snapshot.canAsk || birds.length === 0,
            onPress: () => void hand.actions.brood.release(nest, { birds, plan: plan.id }),
          }),
        )}
      </div>
    `,
    dock: second({
      id: 'back',
      text: handWords.back,
      onPress: () => hand.go({ type: 'nest', nest }),
    }),
  })
}
