// The claim in hand: how these birds are fed, a row for each, and one big press that fits what is left
// to say. Where somebody may have fed them already, crops are looked at first and no amount is shown.

import type { ComponentChild } from 'preact'
import { feedingTechnique } from '../../../shared/care/cautions.ts'
import type { ClaimedBird, ClaimView } from '../../../shared/views/claimView.ts'
import type { PlanLine } from '../../../shared/views/planLine.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { primary, primaryQuiet, second } from '../../ui/press.ts'
import {
  amountWords,
  bandWords,
  formerHelper,
  handWords,
  perhapsFed,
  techniqueWords,
} from '../../ui/words.ts'
import { type Draft, unanswered, withAllAte } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { claimKey, draftOf } from '../ui.ts'
import { birdRows } from './birdRows.ts'
import { undoPress } from './undo.ts'
import { waitingLine } from './waiting.ts'

function bar(hand: Served, claim: ClaimView): ComponentChild {
  const minutes = wholeMinutes(hand.nowMs - claim.startedAtMs)
  return html`<div class="mine" data-testid="claim-bar">
    <span class="label" data-testid="claim-label">${claim.label}</span>
    <span class="box">${claim.incubatorLabel}</span>
    <span>${claim.isOpened ? handWords.openFor(minutes) : handWords.minutes(minutes)}</span>
  </div>`
}

function planWords(claim: ClaimView, line: PlanLine): ComponentChild {
  const rows = claim.birds.filter((row) => line.birds.includes(row.bird))
  const isHidden = rows.every((row) => row.hidesAmount)
  const amount = line.planned && !isHidden ? amountWords(line.planned) : null
  const words = `${handWords.each(line.label, amount)}, ${techniqueWords[line.technique]}`
  const whose = rows.map(bandWords).join(', ')
  return html`<p class="plan" key=${line.label}>
    ${claim.plans.length > 1 ? handWords.planFor(whose, words) : words}
  </p>`
}

/** Shown where a feed is recorded; until crops are looked at nobody is to feed. */
const howToFeed = (claim: ClaimView): ComponentChild => html`
  ${claim.plans.map((line) => planWords(claim, line))}
  <p class="caution">${feedingTechnique.text}</p>
`

function warnings(hand: Served, claim: ClaimView): ComponentChild {
  const doubt = claim.doubts[0]
  return html`
    ${claim.stop ? html`<p class="notice refused" role="alert" data-testid="stop">${handWords.stop[claim.stop]}</p>` : null}
    ${doubt ? html`<p class="doubt" data-testid="perhaps-fed">${perhapsFed(hand.say.time(doubt.aboutAtMs), doubt.name ?? formerHelper)}</p>` : null}
  `
}

function struck(claim: ClaimView): ComponentChild {
  if (claim.struck.length === 0) return null
  return html`<p class="struck" data-testid="struck">
    ${claim.struck.map((row) => html`<s key=${row.bird}>${bandWords(row)}</s> ${row.hold?.reason ?? handWords.notFedHere[row.why]} `)}
  </p>`
}

const toLook = (claim: ClaimView): readonly ClaimedBird[] =>
  claim.birds.filter((row) => row.crop === 'look')

function lookDock(hand: Served, claim: ClaimView): ComponentChild {
  const birds = toLook(claim).map((row) => row.bird)
  const { round } = hand.actions
  return html`<p class="strong">${handWords.looked}</p>
    <div class="pair">
      ${primaryQuiet({
        id: 'all-empty',
        text: handWords.allEmpty(birds.length),
        onPress: () => void round.looked(claim.nest, birds, 'empty'),
      })}
      ${primaryQuiet({
        id: 'all-full',
        text: handWords.allFull(birds.length),
        onPress: () => void round.looked(claim.nest, birds, 'full'),
      })}
    </div>`
}

/** Nothing here needs food: it goes back, and not fed is said where the nest was open too long. */
function fullPress(hand: Served, claim: ClaimView): ComponentChild {
  const { round } = hand.actions
  return primary({
    id: 'all-seen-full',
    text: handWords.allSeenFull(claim.label),
    isOff: hand.ui.isAsking,
    onPress: () => {
      if (claim.canGiveBack && hand.snapshot.canAsk) void round.giveBack(claim)
      else void round.say(claim.nest, claim.claimNo, { type: 'none' })
    },
  })
}

function feedPress(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const left = unanswered(draft, claim.birds)
  const isFresh = left.length === claim.birds.length
  if (left.length > 0) {
    return primary({
      id: 'all-ate',
      text: isFresh ? handWords.allAte(left.length) : handWords.restAte(left.length),
      small: handWords.allAteSmall(claim.label),
      onPress: () => {
        hand.setDraft(claimKey(claim.claimNo), withAllAte(draft, claim.birds))
        hand.go({ type: 'count' })
      },
    })
  }
  if (draft.answers.length === 0) return fullPress(hand, claim)
  return primary({
    id: 'count',
    text: handWords.countBack,
    small: handWords.allAteSmall(claim.label),
    onPress: () => hand.go({ type: 'count' }),
  })
}

export function feedingPage(hand: Served, claim: ClaimView): ComponentChild {
  hand.actions.round.sawBegin(claim.claimNo)
  const draft = draftOf(hand.ui, claimKey(claim.claimNo))
  const mustLook = toLook(claim).length > 0
  const open = (bird: ClaimedBird['bird']) =>
    hand.go({ type: 'bird', nest: claim.nest, bird, draft: claimKey(claim.claimNo) })
  const more = second({
    id: 'aside',
    text: handWords.more,
    onPress: () => hand.go({ type: 'aside' }),
  })
  return frame(hand, {
    id: 'feeding',
    body: html`
      ${bar(hand, claim)} ${warnings(hand, claim)} ${waitingLine(hand)}
      ${mustLook ? null : howToFeed(claim)}
      ${birdRows(claim.birds, draft, (row) => open(row.bird))} ${struck(claim)}
    `,
    dock: mustLook
      ? html`${lookDock(hand, claim)} ${more}`
      : html`${undoPress(hand)}<div class="pair wide-left">${feedPress(hand, claim, draft)} ${more}</div>`,
  })
}
