// Ten seconds in which the last record can simply be taken back, or put on the nest that was really fed,
// wherever saving it has led.

import type { ComponentChild } from 'preact'
import { undoView } from '../../../shared/views/undoView.ts'
import { pair, second } from '../../ui/press.ts'
import type { Served } from '../hand.ts'
import { home } from '../page.ts'
import { visitWords } from '../visitWords.ts'
import { handWords } from '../words.ts'

/** The presses, while there is something to undo. */
export function undoPress(hand: Served): ComponentChild {
  const undo = undoView(hand.board, hand.person, hand.nowMs)
  if (!undo) return null
  const { nest, no, label } = undo
  const leftS = Math.ceil((undo.untilMs - hand.nowMs) / 1_000 / hand.snapshot.speed)
  return pair(
    second({
      id: 'undo',
      text: handWords.undo(label),
      small: handWords.undoSmall(leftS),
      onPress: () => void hand.actions.round.takeBack(nest, no),
    }),
    second({
      id: 'other-nest',
      text: visitWords.otherNest,
      small: visitWords.otherNestSmall(label),
      onPress: () => hand.go({ type: 'otherNest', nest, no, from: home }),
    }),
  )
}
