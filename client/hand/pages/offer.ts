// Somebody is asked to take a nest that waits: which, why, and how long the question stands. It takes
// the page of free hands only; whoever has a nest in hand is never asked.

import type { ComponentChild } from 'preact'
import type { OfferView } from '../../../shared/views/offerView.ts'
import { html } from '../../ui/html.ts'
import { pair, second } from '../../ui/press.ts'
import { formerHelper } from '../../ui/words.ts'
import { offerWords } from '../callWords.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { alreadyFedPress } from './alreadyFed.ts'
import { claimPress } from './claimPress.ts'
import { nextNestLines } from './nextNestLines.ts'
import { questions } from './question.ts'
import { undoPress } from './undo.ts'
import { waitingLine } from './waiting.ts'

export function offerPage(hand: Served, offer: OfferView): ComponentChild {
  const { label, nest } = offer.next.summary
  const leftS = Math.floor((offer.endsAtMs - hand.nowMs) / 1_000 / hand.snapshot.speed)
  const title =
    offer.by === null
      ? offerWords.asked(label)
      : offerWords.askedBy(offer.byName ?? formerHelper, label)
  return frame(hand, {
    id: 'offer',
    body: html`
      <div class="asked">
        <h1>${title}</h1>
        <p data-testid="offer-stands">${offerWords.stands(leftS)}</p>
      </div>
      ${waitingLine(hand)} ${questions(hand)} ${nextNestLines(hand, offer.next, 'small')}
    `,
    dock: html`${undoPress(hand)} ${claimPress(hand, offer.next)}
    ${pair(
      second({
        id: 'not-this',
        text: offerWords.notThis,
        small: offerWords.notThisSmall,
        isOff: hand.ui.isAsking || !hand.snapshot.canAsk,
        onPress: () => void hand.actions.call.declineOffer(nest),
      }),
      alreadyFedPress(hand, nest, home),
    )}`,
  })
}
