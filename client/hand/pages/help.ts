// Help in one tap from every page. It says at which nest, where this person has one in hand or looks at
// one; while their own call is open the press leads to it instead of calling twice.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { claimOf } from '../../../shared/rules/decision.ts'
import { callsView } from '../../../shared/views/callsView.ts'
import { html } from '../../ui/html.ts'
import { callWords } from '../callWords.ts'
import type { Served } from '../hand.ts'

/** The nest in hand, else the one whose page is open. */
function whereabouts(hand: Served): NestId | null {
  const { page } = hand.ui
  return claimOf(hand.board, hand.person)?.nest.id ?? ('nest' in page ? page.nest : null)
}

export function helpPress(hand: Served): ComponentChild {
  const isHere = (hand.board.people[hand.person]?.shift ?? 'off') !== 'off'
  const own = callsView(hand.board, hand.names, hand).find(
    ({ kind, isByMe }) => kind === 'help' && isByMe,
  )
  if (!isHere) return null
  return html`<button
    type="button"
    class=${own ? 'help called' : 'help'}
    data-testid="help"
    onClick=${() => {
      if (own) hand.go({ type: 'call', request: own.request })
      else void hand.actions.call.help(whereabouts(hand))
    }}
  >
    ${own ? callWords.helpCalled : callWords.help}
  </button>`
}
