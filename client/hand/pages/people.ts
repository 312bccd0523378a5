// The name tiles. One tap turns to somebody signed in on this device already, so that a tablet changes
// hands in two; anybody else goes on to the PIN pad.

import type { ComponentChild } from 'preact'
import { type NameTile, signInView } from '../../../shared/views/signInView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { formerHelper, handWords, roleWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Hand } from '../hand.ts'
import { home } from '../page.ts'

function tile(hand: Hand, one: NameTile): ComponentChild {
  const isServed = one.person === hand.ui.person
  return second({
    id: `tile-${one.person}`,
    text: one.name ?? formerHelper,
    small: one.isSignedIn ? handWords.signedInHere : roleWords[one.role],
    onPress: () => {
      if (isServed) hand.go(home)
      else if (one.isSignedIn) hand.actions.sign.serve(one.person)
      else hand.go({ type: 'pin', person: one.person, how: 'pin' })
    },
  })
}

export function peoplePage(hand: Hand): ComponentChild {
  const tiles = signInView(hand.board, hand.names, hand.snapshot.signedIn)
  return frame(hand, {
    id: 'people',
    body: html`<h1>${handWords.whoAreYou}</h1>
      ${tiles.length === 0 ? html`<p>${handWords.noPeople}</p>` : null}
      <div class="pair">${tiles.map((one) => tile(hand, one))}</div>`,
  })
}
