// The count back and the door, then save, and take the next nest in the same tap. The press itself says
// "4 back, door shut": nothing is recorded that the finger did not read.

import type { ComponentChild } from 'preact'
import type { ClaimView } from '../../../shared/views/claimView.ts'
import { nextView } from '../../../shared/views/nextView.ts'
import { html } from '../../ui/html.ts'
import { choice, pair, primary, primaryQuiet, second } from '../../ui/press.ts'
import { backOf, type Draft, withBack } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { expectedBack } from '../roundActions.ts'
import { claimKey, draftOf } from '../ui.ts'
import { visitWords, whichWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

function stepper(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const { brood } = claim
  const back = backOf(draft, expectedBack(claim))
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

/** The door; and above it at once, where a bird is missing, who, and the way out should it turn up. */
function doorOrShort(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const { brood, missing, label, claimNo } = claim
  const short = brood - backOf(draft, expectedBack(claim))
  if (short <= 0) return door(hand, claim, draft)
  return html`
    <p class="notice refused" role="alert" data-testid="short">
      ${draft.back === null && missing > 0 ? visitWords.missedBefore(missing, label) : visitWords.missing(short, label)}
    </p>
    ${pair(
      second({
        id: 'found-now',
        text: visitWords.found,
        small: visitWords.foundSmall(brood),
        onPress: () => hand.setDraft(claimKey(claimNo), withBack(draft, brood, brood)),
      }),
      door(hand, claim, draft),
    )}
  `
}

function saveDock(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const { brood } = claim
  const back = backOf(draft, expectedBack(claim))
  const next = nextFor(hand)
  const text = handWords.backIs(back, brood, draft.isDoorNotSeen)
  const isOff = hand.ui.isAsking
  const save = (then: typeof next) => () =>
    void hand.actions.round.save(claim, draft, then?.nest ?? null)
  const alone = { id: 'save', text, isOff, onPress: save(null) }
  // One that is missing now is looked for before anything else is taken in hand.
  if (back < expectedBack(claim)) {
    return besideBack(hand, primary({ ...alone, small: visitWords.lookFor }))
  }
  if (!next) return besideBack(hand, primary({ ...alone, small: handWords.saveOnly }))
  return html`
    ${primary({ ...alone, id: 'save-next', small: handWords.saveAndTake(next.label), onPress: save(next) })}
    ${besideBack(hand, primaryQuiet({ ...alone, small: handWords.saveOnly }))}
  `
}

const besideBack = (hand: Served, press: ComponentChild): ComponentChild =>
  html`<div class="pair wide-left">
    ${press} ${second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) })}
  </div>`

export function countPage(hand: Served, claim: ClaimView): ComponentChild {
  const draft = draftOf(hand.ui, claimKey(claim.claimNo))
  const { brood, label } = claim
  const which = draft.notKnownWhich
  return frame(hand, {
    id: 'count',
    body: html`
      ${which ? html`<p class="strong" data-testid="which">${whichWords(which, claim.birds.length)}</p>` : null}
      <h1>${handWords.backTitle(brood, label)}</h1>
      ${stepper(hand, claim, draft)} ${doorOrShort(hand, claim, draft)}
    `,
    dock: saveDock(hand, claim, draft),
  })
}
