// Do not feed, and feed again: which bird or nest, why, and when to look again. Reasons are chosen, and
// every hold has its look-again.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import { minuteMs } from '../../../shared/base/values.ts'
import { type NestView, nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { choice, second } from '../../ui/press.ts'
import { bandWords, capital, holdReasons, liftReasons, minutesWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

const lookAgainMinutes = [15, 30, 60, 120] as const

const viewOf = (hand: Served, nest: NestId) =>
  nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })

const backTo = (hand: Served, nest: NestId) =>
  second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'nest', nest }) })

function whatWords(view: NestView, what: BirdId | 'nest'): string {
  const row = view.birds.find(({ bird }) => bird === what)
  return row ? bandWords(row) : handWords.wholeNest(view.summary.label)
}

function whichPresses(hand: Served, view: NestView): ComponentChild {
  const { nest, label } = view.summary
  const nests = view.can.hold
    ? second({
        id: 'hold-nest',
        text: capital(handWords.wholeNest(label)),
        isOff: !hand.snapshot.canAsk,
        onPress: () => hand.go({ type: 'hold', nest, what: 'nest' }),
      })
    : null
  return html`<div class="choices">
    ${view.birds
      .filter((row) => row.hold === null)
      .map((row) =>
        second({
          id: `hold-${row.bird}`,
          text: bandWords(row),
          onPress: () => hand.go({ type: 'hold', nest, what: row.bird }),
        }),
      )}
    ${nests}
  </div>`
}

function reasonChoices(hand: Served): ComponentChild {
  return html`<div class="choices three">
    ${holdReasons.map((reason) =>
      choice({
        id: `reason-${reason}`,
        text: reason,
        isOn: hand.ui.hold.reason === reason,
        onPress: () => hand.change((state) => ({ ...state, hold: { reason } })),
      }),
    )}
  </div>`
}

function timePresses(hand: Served, nest: NestId, what: BirdId | 'nest'): ComponentChild {
  const { reason } = hand.ui.hold
  const set = (minutes: number) => {
    if (reason === null) return
    const why = { reason, atMs: hand.nowMs + minutes * minuteMs }
    if (what === 'nest') void hand.actions.brood.holdNest(nest, why)
    else void hand.actions.brood.holdBird(nest, what, why)
  }
  return html`<h2>${handWords.lookAgainIn}</h2>
    <div class="choices">
      ${lookAgainMinutes.map((minutes) =>
        second({
          id: `again-in-${minutes}`,
          text: minutesWords(minutes),
          isOff: reason === null || hand.ui.isAsking,
          onPress: () => set(minutes),
        }),
      )}
    </div>`
}

export function holdPage(
  hand: Served,
  { nest, what }: { nest: NestId; what: BirdId | 'nest' | null },
): ComponentChild {
  const view = viewOf(hand, nest)
  if (!view) return null
  return frame(hand, {
    id: 'hold',
    body:
      what === null
        ? html`<h1>${handWords.holdTitle}</h1>${whichPresses(hand, view)}`
        : html`<h1>${handWords.holdWhy(whatWords(view, what))}</h1>
            ${reasonChoices(hand)} ${timePresses(hand, nest, what)}`,
    dock: backTo(hand, nest),
  })
}

export function liftPage(
  hand: Served,
  { nest, bird }: { nest: NestId; bird: BirdId | null },
): ComponentChild {
  const view = viewOf(hand, nest)
  if (!view) return null
  const hold = bird ? view.birds.find((row) => row.bird === bird)?.hold : view.hold
  return frame(hand, {
    id: 'lift',
    body: html`
      <h1>${handWords.liftTitle(whatWords(view, bird ?? 'nest'), hold?.reason ?? '')}</h1>
      <div class="choices">
        ${liftReasons.map((reason) =>
          second({
            id: `why-${reason}`,
            text: reason,
            isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
            onPress: () => void hand.actions.brood.liftHold(nest, bird, reason),
          }),
        )}
      </div>
    `,
    dock: backTo(hand, nest),
  })
}
