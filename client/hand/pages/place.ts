// Where this screen stands, which decides whether it may sound; kept on the device.

import type { ComponentChild } from 'preact'
import { places } from '../../attention/place.ts'
import { placeTitle, placeWords } from '../../attention/words.ts'
import { html } from '../../ui/html.ts'
import { choice, second } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Hand } from '../hand.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

/** The press that opens it, with what is set now. */
export const placePress = (hand: Hand): ComponentChild =>
  second({
    id: 'place',
    text: visitWords.place,
    small: placeWords[hand.ui.place].name,
    onPress: () => hand.go({ type: 'place' }),
  })

export function placePage(hand: Hand): ComponentChild {
  return frame(hand, {
    id: 'place',
    body: html`
      <h1>${placeTitle}</h1>
      <div class="rows">
        ${places.map((place) =>
          choice({
            id: `place-${place}`,
            text: placeWords[place].name,
            small: placeWords[place].means,
            isOn: hand.ui.place === place,
            onPress: () => hand.change((state) => ({ ...state, place })),
          }),
        )}
      </div>
    `,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go({ type: 'more' }) }),
  })
}
