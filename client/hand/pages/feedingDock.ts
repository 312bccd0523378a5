// What the thumb can press while a nest is in hand: the one big press that fits what is left to say, the
// crops to be looked at first, the tap that says the nest is open, and the way aside.

import type { ComponentChild } from 'preact'
import type { BirdId } from '../../../shared/base/values.ts'
import type { ClaimedBird, ClaimView } from '../../../shared/views/claimView.ts'
import { html } from '../../ui/html.ts'
import { primary, primaryQuiet, second } from '../../ui/press.ts'
import { type Draft, unanswered, withAllAte } from '../draft.ts'
import type { Served } from '../hand.ts'
import { claimKey } from '../ui.ts'
import { handWords } from '../words.ts'
import { undoPress } from './undo.ts'

/** Birds whose crop is to be looked at before anything is fed here. */
export const toLook = (rows: readonly ClaimedBird[]): readonly BirdId[] =>
  rows.filter((row) => row.crop === 'look').map((row) => row.bird)

function lookDock(hand: Served, claim: ClaimView): ComponentChild {
  const birds = toLook(claim.birds)
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
  const small = handWords.allAteSmall(claim.label)
  if (left.length > 0) {
    return primary({
      id: 'all-ate',
      text: isFresh ? handWords.allAte(left.length) : handWords.restAte(left.length),
      small,
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
    small,
    onPress: () => hand.go({ type: 'count' }),
  })
}

/** In a room that uses it, until it has been tapped. */
function openPress(hand: Served, claim: ClaimView): ComponentChild {
  if (!claim.usesStartTap || claim.isOpened) return null
  return second({
    id: 'open',
    text: handWords.nestIsOpen,
    small: handWords.nestIsOpenSmall,
    onPress: () => void hand.actions.round.startFeed(claim),
  })
}

const asidePress = (hand: Served): ComponentChild =>
  second({ id: 'aside', text: handWords.more, onPress: () => hand.go({ type: 'aside' }) })

export function feedingDock(hand: Served, claim: ClaimView, draft: Draft): ComponentChild {
  if (toLook(claim.birds).length > 0) return html`${lookDock(hand, claim)} ${asidePress(hand)}`
  return html`${undoPress(hand)} ${openPress(hand, claim)}
    <div class="pair wide-left">${feedPress(hand, claim, draft)} ${asidePress(hand)}</div>`
}
