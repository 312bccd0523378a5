// A brood without bands, as one: how many there are, what was said of them, and the press for "not all".

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import type { BirdRow } from '../../../shared/views/birdRow.ts'
import { tallyOf } from '../../../shared/views/tally.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { tallyWords } from '../../ui/words.ts'
import type { Draft } from '../draft.ts'
import type { Hand } from '../hand.ts'
import type { Page } from '../page.ts'
import { draftOf } from '../ui.ts'
import { visitWords, whichWords } from '../visitWords.ts'

/** What the draft says of the whole brood; nothing while nothing is said. */
function saidWords({ answers, notKnownWhich }: Draft, brood: number): string | null {
  if (notKnownWhich) return whichWords(notKnownWhich, brood)
  return answers.length === 0 ? null : tallyWords(tallyOf(answers.map(({ outcome }) => outcome)))
}

export function unmarkedBrood(
  hand: Hand,
  of: {
    readonly nest: NestId
    readonly rows: readonly BirdRow[]
    readonly key: string
    /** Where the count picked leads. */
    readonly after: Page
  },
): ComponentChild {
  const { nest, rows, key, after } = of
  const said = saidWords(draftOf(hand.ui, key), rows.length)
  return html`<p class="strong" data-testid="unmarked">${said ?? visitWords.unmarked(rows.length)}</p>
    ${second({
      id: 'not-all',
      text: visitWords.notAll,
      small: visitWords.notAllSmall,
      onPress: () => hand.go({ type: 'notAll', nest, draft: key, after }),
    })}`
}
