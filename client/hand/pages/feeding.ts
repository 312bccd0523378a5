// The claim in hand: how these birds are fed, a row for each, and one big press that fits what is left
// to say. Where somebody may have fed them already, crops are looked at first and no amount is shown.

import type { ComponentChild } from 'preact'
import { feedingTechnique } from '../../../shared/care/cautions.ts'
import { outOfHeatLimits } from '../../../shared/care/outOfHeat.ts'
import type { ClaimView } from '../../../shared/views/claimView.ts'
import type { PlanLine } from '../../../shared/views/planLine.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { html } from '../../ui/html.ts'
import { amountWords, bandWords, techniqueWords } from '../../ui/words.ts'
import { asLooked, type Draft, isUnmarked } from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { claimKey, draftOf } from '../ui.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'
import { birdRows } from './birdRows.ts'
import { cropPictures } from './cropPictures.ts'
import { feedingDock, toLook } from './feedingDock.ts'
import { stillLine } from './stillLine.ts'
import { unmarkedBrood } from './unmarkedBrood.ts'
import { waitingLine } from './waiting.ts'
import { warningLines } from './warnings.ts'

/** The quiet clock: from the tap that said the nest is open, else from the claim, and said so. */
function bar(hand: Served, claim: ClaimView): ComponentChild {
  const minutes = wholeMinutes(hand.nowMs - claim.startedAtMs)
  return html`<div class="mine" data-testid="claim-bar">
    <span class="label" role="heading" aria-level="1" data-testid="claim-label">${claim.label}</span>
    <span class="box">${claim.incubatorLabel}</span>
    <span data-testid="out-of-heat">
      ${claim.isOpened ? visitWords.out(minutes) : visitWords.sinceClaim(minutes)}
    </span>
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

const plan = (claim: ClaimView): ComponentChild => html`<div class="how">
  ${claim.plans.map((line) => planWords(claim, line))} ${cropPictures(claim.cropLook)}
</div>`

/** Shown where a feed is recorded; until crops are looked at nobody is to feed. */
const howToFeed = (claim: ClaimView): ComponentChild => html`<div class="how">
  <p class="caution">${feedingTechnique.text}</p>
  <p class="caution" data-testid="out-limits">
    ${visitWords.outLimits(outOfHeatLimits)} ${claim.isOpened ? null : visitWords.countedFromClaim}
    ${' '}<small>${outOfHeatLimits[0]?.source}</small>
  </p>
</div>`

function warnings(hand: Served, claim: ClaimView): ComponentChild {
  return html`
    ${claim.stop ? html`<p class="notice refused" role="alert" data-testid="stop">${handWords.stop[claim.stop]}</p>` : null}
    ${warningLines(hand, claim.warnings)}
  `
}

function struck(claim: ClaimView): ComponentChild {
  if (claim.struck.length === 0) return null
  return html`<p class="struck" data-testid="struck">
    ${claim.struck.map((row) => html`<s key=${row.bird}>${bandWords(row)}</s> ${row.hold?.reason ?? handWords.notFedHere[row.why]} `)}
  </p>`
}

/** Birds without bands are answered as one brood, unless somebody has looked at each of them. */
function brood(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  const key = claimKey(claim.claimNo)
  const isOneBrood = claim.birds.every((row) => row.crop === 'notDoubted' && !row.answered)
  if (isUnmarked(claim.birds) && isOneBrood) {
    return unmarkedBrood(hand, {
      nest: claim.nest,
      rows: claim.birds,
      key,
      after: { type: 'count' },
    })
  }
  return birdRows(claim.birds, draft, ({ bird }) =>
    hand.go({ type: 'bird', nest: claim.nest, bird, draft: key, from: home }),
  )
}

export function feedingPage(hand: Served, held: ClaimView): ComponentChild {
  hand.actions.round.sawBegin(held.claimNo)
  const draft = draftOf(hand.ui, claimKey(held.claimNo))
  const claim = { ...held, birds: asLooked(draft, held.birds) }
  const mustLook = toLook(claim.birds).length > 0
  return frame(hand, {
    id: 'feeding',
    body: html`
      ${bar(hand, claim)} ${stillLine(hand)} ${warnings(hand, claim)} ${waitingLine(hand)}
      ${mustLook ? null : plan(claim)} ${brood(hand, claim, draft)} ${struck(claim)}
      ${mustLook ? null : howToFeed(claim)}
    `,
    dock: feedingDock(hand, claim, draft),
  })
}
