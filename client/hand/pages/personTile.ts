// One person's tile: who they are, and what they have in hand. The same on the page of all people and
// in the row above every page of a tablet that serves several.

import type { NameTile } from '../../../shared/views/signInView.ts'
import { formerHelper, roleWords } from '../../ui/words.ts'
import { shiftWords } from '../callWords.ts'
import type { Hand } from '../hand.ts'
import { home } from '../page.ts'
import { handWords } from '../words.ts'

export const tileName = ({ name }: NameTile): string => name ?? formerHelper

/** What they are at; null when nothing that the others need to know. */
export function busyWords(hand: Hand, one: NameTile): string | null {
  if (one.holds !== null) return shiftWords.has(one.holds)
  if (one.isCalled) return shiftWords.called
  if (one.offered !== null) return shiftWords.asked(one.offered)
  if (one.shift !== 'break') return null
  return shiftWords.onBreak(one.backAtMs === null ? null : hand.say.time(one.backAtMs))
}

export const tileWords = (hand: Hand, one: NameTile): string =>
  busyWords(hand, one) ?? (one.isSignedIn ? handWords.signedInHere : roleWords[one.role])

/** One tap turns to somebody signed in here; anybody else enters their PIN first. */
export function turnTo(hand: Hand, { person, isSignedIn }: NameTile): void {
  if (person === hand.ui.person) hand.go(home)
  else if (isSignedIn) hand.actions.sign.serve(person)
  else hand.go({ type: 'pin', person, how: 'pin' })
}
