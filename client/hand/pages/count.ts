// The count back and the door, then save, and take the next nest in the same tap. The press itself says
// "4 back, door shut": nothing is recorded that the finger did not read.

import type { ComponentChild } from 'preact'
import type { ClaimView } from '../../../shared/views/claimView.ts'
import { nextView } from '../../../shared/views/nextView.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, primaryQuiet, second } from '../../ui/press.ts'
import { handWords } from '../../ui/words.ts'
import { backOf, type Draft, withBack } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { claimKey, draftOf } from '../ui.ts'

function stepper(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const { brood } = claim
  const back = backOf(draft, brood)
  const set = (to: number) => hand.setDraft(claimKey(claim.claimNo), withBack(draft, to, brood))
  return html`<div class="amount">
    ${second({ id: 'fewer-back', text: '−', isOff: back === 0, onPress: () => set(back - 1) })}
    <output data-testid="back-count">${back}</output>
    ${second({ id: 'more-back', text: '+', isOff: back === brood, onPress: () => set(back + 1) })}
  </div>`
}

function door(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const isDoorNotSeen = !draft.isDoorNotSeen
  return choice({
    id: 'door-not-seen',
    text: handWords.doorNotSeen,
    isOn: draft.isDoorNotSeen,
    onPress: () => hand.setDraft(claimKey(claim.claimNo), { ...draft, isDoorNotSeen }),
  })
}

/** The nest to take next: only one that can be claimed without looking at anything first. */
function nextFor(hand: Served): { nest: ClaimView['nest']; label: string } | null {
  const next = nextView(hand.board, hand.names, hand)
  if (!hand.snapshot.canAsk || next.type !== 'nest' || next.doubts.length > 0) return null
  return { nest: next.summary.nest, label: next.summary.label }
}

export function countPage(hand: Served, claim: ClaimView): ComponentChild {
  const draft = draftOf(hand.ui, claimKey(claim.claimNo))
  const { brood, label } = claim
  const back = backOf(draft, brood)
  const next = nextFor(hand)
  const said = handWords.backIs(back, brood, draft.isDoorNotSeen)
  const save = (then: typeof next) => () =>
    void hand.actions.round.save(claim, draft, then?.nest ?? null)
  const isOff = hand.ui.isAsking
  return frame(hand, {
    id: 'count',
    body: html`
      <h1>${handWords.backTitle(brood, label)}</h1>
      ${stepper(hand, claim, draft)}
      ${back < brood ? html`<p class="notice refused">${handWords.short(brood - back)}</p>` : null}
      ${door(hand, claim, draft)}
    `,
    dock: html`
      ${next ? primary({ id: 'save-next', text: said, small: handWords.saveAndTake(next.label), isOff, onPress: save(next) }) : null}
      ${(next ? primaryQuiet : primary)({ id: 'save', text: said, small: handWords.saveOnly, isOff, onPress: save(null) })}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) })}
    `,
  })
}
