// "That was F, not E": the nest really fed is picked, in one tap, and the whole record goes there.

import type { ComponentChild } from 'preact'
import type { NestId } from '../../../shared/base/values.ts'
import { listView } from '../../../shared/views/listView.ts'
import { nestView } from '../../../shared/views/nestView.ts'
import { html } from '../../ui/html.ts'
import { second } from '../../ui/press.ts'
import { frame } from '../frame.ts'
import type { Served } from '../hand.ts'
import type { Page } from '../page.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

export function otherNestPage(
  hand: Served,
  of: { readonly nest: NestId; readonly no: number; readonly from: Page },
): ComponentChild {
  const { nest, no, from } = of
  const { person, nowMs } = hand
  const view = nestView(hand.board, hand.names, { nest, person, nowMs })
  const round = view?.rounds.find((one) => one.no === no && !one.isTakenBack)
  if (!view || !round) return null
  const others = listView(hand.board, hand.names, hand).filter((one) => one.nest !== nest)
  return frame(hand, {
    id: 'other-nest',
    body: html`
      <h1>${visitWords.otherNestTitle(view.summary.label, hand.say.time(round.startedAtMs))}</h1>
      <div class="choices three labels">
        ${others.map((one) =>
          second({
            id: `fed-nest-${one.label}`,
            text: one.label,
            small: handWords.incubator(one.incubatorLabel),
            onPress: () => void hand.actions.round.fedOther(nest, no, one.nest),
          }),
        )}
      </div>
    `,
    dock: second({ id: 'back', text: handWords.back, onPress: () => hand.go(from) }),
  })
}
