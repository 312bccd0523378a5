// Ten seconds in which the last record can simply be taken back, wherever saving it has led.

import type { ComponentChild } from 'preact'
import { undoView } from '../../../shared/views/undoView.ts'
import { second } from '../../ui/press.ts'
import { handWords } from '../../ui/words.ts'
import type { Served } from '../hand.ts'

/** The press, while there is something to undo. */
export function undoPress(hand: Served): ComponentChild {
  const undo = undoView(hand.board, hand.person, hand.nowMs)
  if (!undo) return null
  const leftS = Math.ceil((undo.untilMs - hand.nowMs) / 1_000 / hand.snapshot.speed)
  return second({
    id: 'undo',
    text: handWords.undo(undo.label),
    small: handWords.undoSmall(leftS),
    onPress: () => void hand.actions.round.takeBack(undo.nest, undo.no),
  })
}
