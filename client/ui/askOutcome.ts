// Why an ask or a sign-in came to nothing, in the words of the person who made it. Every screen that
// writes says it the same way.

import type { AskOutcome, SignInOutcome } from '../session/outcomes.ts'
import { faultWords, lockedWords, refusalWords } from './refusalWords.ts'
import type { Say } from './words.ts'

/** What is said of anything that was sent, or could not be, whatever it was. */
export const sendingWords = {
  noAnswer: 'No answer came. It may still have got through: look at the board.',
  notLive: 'Not live. Nothing was asked.',
  full: 'This device holds too many records. Tell the lead.',
  notKept: 'NOT NOTED: this device could not keep it. Write it on paper.',
  reload: 'This page must be loaded again.',
} as const

/** An ask that was not granted. */
export function askRefusal(outcome: Exclude<AskOutcome, { status: 'applied' }>, say: Say): string {
  switch (outcome.status) {
    case 'rejected':
      return refusalWords(outcome.why, say)
    case 'fault':
      return faultWords[outcome.code]
    case 'notLive':
      return sendingWords.notLive
    case 'expired':
      return sendingWords.noAnswer
    case 'full':
      return sendingWords.full
    case 'notKept':
      return sendingWords.notKept
    case 'stopped':
      return sendingWords.reload
  }
}

/** A sign-in, or a sign-out, that did not happen. */
export function signInRefusal(outcome: Exclude<SignInOutcome, { status: 'done' }>): string {
  switch (outcome.status) {
    case 'fault':
      return outcome.code === 'pinLocked' && outcome.waitMs !== undefined
        ? lockedWords(Math.ceil(outcome.waitMs / 1_000))
        : faultWords[outcome.code]
    case 'notLive':
    case 'busy':
      return sendingWords.notLive
    case 'noAnswer':
      return sendingWords.noAnswer
    case 'stopped':
      return sendingWords.reload
  }
}
