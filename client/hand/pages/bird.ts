// One bird of the visit: its crop where that is in doubt, else its outcome and, where some was taken,
// how much. Each tap stands at once; the way back keeps it.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import { type Crop, crops, notFedReasons } from '../../../shared/board/constants.ts'
import { stepDown, stepUp } from '../../../shared/views/amountStep.ts'
import type { BirdRow } from '../../../shared/views/birdRow.ts'
import { cropShown } from '../../../shared/views/cropShown.ts'
import { cropDrawing } from '../../ui/cropDrawing.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { bandMark } from '../../ui/shapes.ts'
import { amountWords, bandWords, cropWords, notFedWords, outcomeWords } from '../../ui/words.ts'
import {
  answerOf,
  type Draft,
  withAmount,
  withCannotTell,
  withNotFed,
  withOutcome,
} from '../draft.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import type { Page } from '../page.ts'
import { draftOf } from '../ui.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'
import { givenWords } from './birdRows.ts'

export type BirdOf = {
  readonly nest: NestId
  readonly label: string
  readonly row: BirdRow
  /** Which draft is answered, and where Back leads. */
  readonly key: string
  readonly from: Page
  /** A feed said afterwards does not look at crops. */
  readonly looks: boolean
}

const fedOutcomes = ['ate', 'some', 'refused', 'assisted'] as const

/** What full and empty look like, where this bird has a crop to be seen. */
function cropPicture({ species }: BirdRow, crop: Crop): ComponentChild {
  const look = cropShown([species])
  if (look === null || crop === 'cannotTell') return null
  return cropDrawing(look, crop === 'full' ? 'filled' : 'empty')
}

function cropChoices(hand: Served, { nest, row, key }: BirdOf): ComponentChild {
  const look = (bird: BirdId, crop: Crop) => {
    if (crop === 'cannotTell') hand.setDraft(key, withCannotTell(draftOf(hand.ui, key), bird))
    void hand.actions.round.looked(nest, [bird], crop)
  }
  return html`<p class="strong">${handWords.looked}</p>
    <div class="choices">
      ${crops.map((crop) =>
        second({
          id: `crop-${crop}`,
          text: html`${cropPicture(row, crop)} ${cropWords[crop]}`,
          onPress: () => look(row.bird, crop),
        }),
      )}
    </div>`
}

const notFedOpen = 'notFed'

function outcomes(hand: Served, of: BirdOf, draft: Draft): ComponentChild {
  const answer = answerOf(draft, of.row.bird)
  const asksWhy = hand.ui.picked.includes(notFedOpen)
  const set = (next: Draft, picked: readonly string[]) => {
    hand.setDraft(of.key, next)
    hand.change((state) => ({ ...state, picked }))
  }
  const hold = second({
    id: 'hold-this',
    text: handWords.hold,
    onPress: () => hand.go({ type: 'hold', nest: of.nest, what: of.row.bird }),
  })
  return html`<div class="choices three">
      ${fedOutcomes.map((outcome) =>
        choice({
          id: `outcome-${outcome}`,
          text: outcomeWords[outcome],
          isOn: !asksWhy && answer?.outcome === outcome,
          onPress: () => set(withOutcome(draft, of.row, outcome), []),
        }),
      )}
      ${choice({
        id: 'outcome-notFed',
        text: outcomeWords.notFed,
        isOn: asksWhy || answer?.outcome === 'notFed',
        onPress: () => hand.change((state) => ({ ...state, picked: [notFedOpen] })),
      })}
      ${hold}
    </div>
    ${asksWhy || answer?.outcome === 'notFed' ? reasons(hand, of, draft) : null}`
}

/** Not fed is an answer only with its reason. */
function reasons(hand: Served, of: BirdOf, draft: Draft): ComponentChild {
  const answer = answerOf(draft, of.row.bird)
  return html`<h2>${handWords.whyNotFed}</h2>
    <div class="choices">
      ${notFedReasons.map((reason) =>
        choice({
          id: `reason-${reason}`,
          text: notFedWords[reason],
          isOn: answer?.reason === reason,
          onPress: () => {
            hand.setDraft(of.key, withNotFed(draft, of.row.bird, reason))
            hand.change((state) => ({ ...state, picked: [] }))
          },
        }),
      )}
    </div>`
}

/** Moved by plus and minus from what the plan says; hidden while a crop is in doubt. */
function amount(hand: Served, of: BirdOf, draft: Draft): ComponentChild {
  const answer = answerOf(draft, of.row.bird)
  const isFed = answer !== null && answer.outcome !== 'refused' && answer.outcome !== 'notFed'
  const now = answer?.given?.amount ?? of.row.planned
  if (!isFed || !now || hand.ui.picked.includes(notFedOpen)) return null
  if (of.row.hidesAmount) return html`<p>${handWords.amountHidden}</p>`
  const set = (next: typeof now) => hand.setDraft(of.key, withAmount(draft, of.row.bird, next))
  const { cap } = of.row
  const isOver = cap !== null && cap.unit === now.unit && now.n > cap.n
  const shown = answer.given ? givenWords(answer) : visitWords.howMuchTaken
  return html`<div class="amount">
      ${second({ id: 'less', text: '−', onPress: () => set(stepDown(now)) })}
      <output data-testid="amount">${shown}</output>
      ${second({ id: 'more-amount', text: '+', onPress: () => set(stepUp(now)) })}
    </div>
    ${cap ? html`<p class=${isOver ? 'notice refused' : 'caution'}>${(isOver ? handWords.overCap : handWords.cap)(amountWords(cap))}</p>` : null}`
}

export function birdPage(hand: Served, of: BirdOf): ComponentChild {
  const draft = draftOf(hand.ui, of.key)
  const mustLook = of.looks && of.row.crop === 'look'
  const isAnswered = answerOf(draft, of.row.bird) !== null
  return frame(hand, {
    id: 'bird',
    body: html`
      <h1 class="with-band">${bandMark(of.row.band)} ${handWords.whatDidItDo(bandWords(of.row), of.label)}</h1>
      ${mustLook ? cropChoices(hand, of) : html`${outcomes(hand, of, draft)} ${amount(hand, of, draft)}`}
    `,
    dock: isAnswered
      ? primary({ id: 'keep', text: handWords.keep, onPress: () => hand.go(of.from) })
      : second({ id: 'back', text: handWords.back, onPress: () => hand.go(of.from) }),
  })
}
