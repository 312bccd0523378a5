// What was recorded on a nest lately, one line a visit, and the press by which its feeder mends it.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import type { NestView, RoundShown } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { formerHelper, tallyWords } from '../../ui/words.ts'
import type { Served } from '../hand.ts'
import { visitWords, whichWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

const roundsShown = 4

/** What the visit came to: what each bird did, and how many did otherwise where nobody knows which. */
function roundWords({ tally, isTakenBack, movedTo, notKnownWhich }: RoundShown): string {
  if (movedTo !== null) return visitWords.movedTo(movedTo)
  if (isTakenBack) return handWords.takenBack
  if (notKnownWhich === null) return tallyWords(tally)
  return whichWords(
    notKnownWhich,
    tally.reduce((sum, { n }) => sum + n, 0),
  )
}

function roundRow(hand: Served, nest: NestId, one: RoundShown): ComponentChild {
  const press =
    one.isMine && !one.isTakenBack
      ? second({
          id: `mend-${one.no}`,
          text: visitWords.mend,
          onPress: () => hand.go({ type: 'mend', nest, no: one.no }),
        })
      : null
  return html`<li key=${one.no} data-testid=${`round-${one.no}`}>
    <span>${handWords.roundLine(hand.say.time(one.startedAtMs), one.name ?? formerHelper, roundWords(one))}</span>
    ${press}
  </li>`
}

/** The latest visits; nothing where there were none. */
export function roundLines(hand: Served, { rounds, summary }: NestView): ComponentChild {
  if (rounds.length === 0) return null
  return html`<h2>${handWords.rounds}</h2>
    <ul class="rows plain">
      ${rounds.slice(0, roundsShown).map((one) => roundRow(hand, summary.nest, one))}
    </ul>`
}
