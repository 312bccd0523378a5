// "Which of F were fed?": the middle answer of a doubt, one tap a bird.

import type { ComponentChild } from 'preact'
import type { BirdId, NestId } from '../../../shared/base/values.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { choice, primary, second } from '../../ui/press.ts'
import { bandWords } from '../../ui/words.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'

export function whichPage(hand: Served, of: { nest: NestId; no: number }): ComponentChild {
  const { nest, no } = of
  const view = nestView(hand.board, hand.names, { nest, person: hand.person, nowMs: hand.nowMs })
  if (!view) return null
  const { picked } = hand.ui
  const toggle = (bird: BirdId) =>
    hand.change((state) => ({
      ...state,
      picked: picked.includes(bird) ? picked.filter((one) => one !== bird) : [...picked, bird],
    }))
  const birds = view.birds.map((row) => row.bird).filter((bird) => picked.includes(bird))
  return frame(hand, {
    id: 'which',
    body: html`
      <h1>${handWords.whichFed(view.summary.label)}</h1>
      <div class="choices">
        ${view.birds.map((row) =>
          choice({
            id: `fed-${row.bird}`,
            text: bandWords(row),
            isOn: picked.includes(row.bird),
            onPress: () => toggle(row.bird),
          }),
        )}
      </div>
    `,
    dock: html`
      ${primary({
        id: 'save-which',
        text: handWords.saveFeed,
        isOff: birds.length === 0,
        onPress: () => void hand.actions.round.say(nest, no, { type: 'some', birds }),
      })}
      ${second({ id: 'back', text: handWords.back, onPress: () => hand.go(home) })}
    `,
  })
}
