// The row above every page of a tablet that several people share: everybody signed in on it, whom it
// serves now, and who of them has which nest. One tap turns to another.

import type { ComponentChild } from 'preact'
import { signInView } from '../../../shared/views/signInView.ts'
import { html } from '../../ui/html.ts'
import type { Hand } from '../hand.ts'
import { busyWords, tileName, turnTo } from './personTile.ts'

/** More do not fit a row; everybody is on the page of all people. */
const tilesMax = 4

/** Nothing where one person, or nobody, is signed in, and on the pages that ask who somebody is. */
export function servedRow(hand: Hand): ComponentChild {
  const { type } = hand.ui.page
  if (type === 'people' || type === 'pin') return null
  const tiles = signInView(hand.board, hand.names, hand.snapshot.signedIn).filter(
    ({ isSignedIn }) => isSignedIn,
  )
  if (tiles.length < 2) return null
  const isServed = (person: string) => person === hand.ui.person
  const first = tiles.filter(({ person }, at) => at < tilesMax || isServed(person)).slice(-tilesMax)
  return html`<nav class="served" data-testid="served">
    ${first.map(
      (one) => html`<button
        type="button"
        key=${one.person}
        class=${isServed(one.person) ? 'press second on' : 'press second'}
        aria-pressed=${isServed(one.person)}
        data-testid=${`served-${one.person}`}
        onClick=${() => turnTo(hand, one)}
      >
        <span>${tileName(one)}</span>
        <small>${busyWords(hand, one) ?? ''}</small>
      </button>`,
    )}
  </nav>`
}
