// Why to look before feeding, one broken frame a reason: the same lines wherever a nest is shown to
// somebody who may feed it.

import type { ComponentChild } from 'preact'
import { unreachable } from '../../../shared/base/control.ts'
import type { NestWarning } from '../../../shared/views/nestWarnings.ts'
import { html } from '../../ui/html.ts'
import { formerHelper, perhapsFed } from '../../ui/words.ts'
import type { Hand } from '../hand.ts'
import { visitWords } from '../visitWords.ts'

const testIds = { perhapsFed: 'perhaps-fed', twice: 'twice', hungry: 'hungry' } as const

function warningText({ say }: Hand, warning: NestWarning): string {
  switch (warning.type) {
    case 'perhapsFed':
      return perhapsFed(say.time(warning.aboutAtMs), warning.name ?? formerHelper)
    case 'twice':
      return visitWords.twice(say.time(warning.firstAtMs), say.time(warning.secondAtMs))
    case 'hungry':
      return visitWords.hungry(say.time(warning.startedAtMs), warning.notKnownWhich, warning.brood)
    default:
      return unreachable(warning)
  }
}

/** Nothing where there is no reason to look. */
export const warningLines = (hand: Hand, warnings: readonly NestWarning[]): ComponentChild =>
  warnings.map(
    (warning) =>
      html`<p class="doubt" key=${warning.no} data-testid=${testIds[warning.type]}>
        ${warningText(hand, warning)}
      </p>`,
  )
