// Who are you? One tile a person; those signed in on this device need no PIN and stand first.

import type { ComponentChild } from 'preact'
import { type NameTile, signInView } from '../../../shared/views/signInView.ts'
import { html } from '../../ui/html.ts'
import { choice } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Hand } from '../hand.ts'
import { handWords } from '../words.ts'
import { tileName, tileWords, turnTo } from './personTile.ts'

const tile = (hand: Hand, one: NameTile): ComponentChild =>
  choice({
    id: `tile-${one.person}`,
    text: tileName(one),
    small: tileWords(hand, one),
    isOn: one.person === hand.ui.person,
    onPress: () => turnTo(hand, one),
  })

export function peoplePage(hand: Hand): ComponentChild {
  const tiles = signInView(hand.board, hand.names, hand.snapshot.signedIn)
  return frame(hand, {
    id: 'people',
    body: html`<h1>${handWords.whoAreYou}</h1>
      ${tiles.length === 0 ? html`<p>${handWords.noPeople}</p>` : null}
      <div class="choices tiles">${tiles.map((one) => tile(hand, one))}</div>`,
  })
}
