// The big press that takes the nest a person is shown or asked for; where somebody may have fed it, it
// says that they will look first.

import type { ComponentChild } from 'preact'
import type { NextNest } from '../../../shared/views/nextView.ts'
import { primary } from '../../ui/press.ts'
import type { Served } from '../hand.ts'
import { handWords } from '../words.ts'

/** What the big press can be just now: it waits for an answer, or for the link. */
export function pressState(hand: Served): { isOff: boolean; text?: string; small?: string } {
  if (hand.ui.isAsking) return { isOff: true, text: handWords.asking }
  return hand.snapshot.canAsk
    ? { isOff: false }
    : { isOff: true, text: handWords.connecting, small: '' }
}

/** None while not live: then the nest is said aloud instead. */
export function claimPress(hand: Served, next: NextNest): ComponentChild {
  const { nest, label } = next.summary
  const { round } = hand.actions
  if (hand.snapshot.liveness.status === 'notLive') return null
  if (next.doubts.length > 0) {
    return primary({
      id: 'look-first',
      text: handWords.lookFirst,
      small: handWords.lookFirstSmall(label),
      onPress: () => void round.claim(nest, { seenDoubts: [...next.doubts] }),
      ...pressState(hand),
    })
  }
  return primary({
    id: 'claim',
    text: handWords.claim(label),
    small: handWords.claimSmall,
    onPress: () => void round.claim(nest),
    ...pressState(hand),
  })
}
