// A nest on the wall as a few words, from all that can be said down to its label alone, so that a
// crowded lane can say less without cutting a word. Which words give way first is decided in fit.ts.

import { unreachable } from '../../shared/base/control.ts'
import type { InstantMs, NestId } from '../../shared/base/values.ts'
import { minuteMs } from '../../shared/base/values.ts'
import type { NestDoubt, NestSummary } from '../../shared/views/nestState.ts'
import { wholeMinutes } from '../ui/clock.ts'
import { wallWords } from '../ui/words.ts'

export type TokenKind =
  | 'late'
  | 'veryLate'
  | 'due'
  | 'claimed'
  | 'soon'
  | 'later'
  | 'settling'
  | 'held'
  | 'unplanned'

/** What stands beside the label, and in the chip that says somebody may have fed it. */
export type Form = {
  readonly detail: string
  /** null where nobody doubts it; no words leave the question mark alone. */
  readonly doubt: string | null
  /** How dear this form's words are: a lane gives up the cheapest first. 0 for the last form. */
  readonly worth: number
}

export type Token = {
  readonly nest: NestId
  readonly label: string
  /** The label as drawn: in brackets where the brood is quarantined. */
  readonly shown: string
  readonly kind: TokenKind
  /** From the most words to the fewest; never empty. */
  readonly forms: readonly [Form, ...Form[]]
}

/** From here a late nest grows and turns orange. */
const veryLateMs = 10 * minuteMs
/** Letters of a name that fit beside a label and minutes in ten lanes. */
const nameShort = 7

type Time = (atMs: InstantMs) => string

function kindOf(nest: NestSummary): TokenKind {
  const { state } = nest
  return state.type === 'late' && state.lateMs >= veryLateMs ? 'veryLate' : state.type
}

/** Words and how dear they are; the last of a list is never given up. */
type Words<T = string> = readonly (readonly [T, number])[]

function claimedWords(
  state: Extract<NestSummary['state'], { type: 'claimed' }>,
  nowMs: InstantMs,
): Words {
  const name = state.name ?? wallWords.nobodyKnown
  const minutes = String(wholeMinutes(nowMs - state.sinceMs))
  const last = state.stop ? wallWords.stop : minutes
  return [
    [`${name} ${last}`, 6],
    [`${name.slice(0, nameShort)} ${last}`, 9],
    [last, 0],
  ]
}

function settlingWords(lookDueAtMs: InstantMs, time: Time, nowMs: InstantMs): Words {
  const isDue = lookDueAtMs <= nowMs
  const look = isDue ? wallWords.lookNow : wallWords.lookAt(time(lookDueAtMs))
  return [
    [`${wallWords.warming}, ${look}`, 3],
    [isDue ? look : wallWords.warming, 7],
    ['', 0],
  ]
}

function heldWords(state: Extract<NestSummary['state'], { type: 'held' }>): Words {
  const { reason, lookAgain } = state
  if (lookAgain !== 'quiet') {
    return [
      [`${reason}, ${wallWords.lookNow}`, 3],
      [wallWords.lookNow, 7],
      ['', 0],
    ]
  }
  const short = reason.split(' ').slice(0, 2).join(' ')
  return [
    [reason, 4],
    [short, 8],
    ['', 0],
  ]
}

/** The words beside the label, fewest last. */
function detailWords(nest: NestSummary, time: Time, nowMs: InstantMs): Words {
  const { state } = nest
  switch (state.type) {
    case 'claimed':
      return claimedWords(state, nowMs)
    case 'late': {
      const minutes = wholeMinutes(state.lateMs)
      return [
        [wallWords.late(minutes), 2],
        [String(minutes), 0],
      ]
    }
    case 'due':
      return [
        [wallWords.due, 5],
        ['', 0],
      ]
    case 'soon':
    case 'later':
      return [
        [time(state.dueAtMs), state.type === 'later' ? 1 : 3],
        ['', 0],
      ]
    case 'held':
      return heldWords(state)
    case 'settling':
      return settlingWords(state.lookDueAtMs, time, nowMs)
    case 'unplanned':
      return [
        [wallWords.unplanned, 1],
        ['', 0],
      ]
    default:
      return unreachable(state)
  }
}

function doubtWords(doubt: NestDoubt | null, time: Time): Words<string | null> {
  if (!doubt) return [[null, 0]]
  const at = time(doubt.aboutAtMs)
  const name = doubt.name ?? ''
  return [
    [doubt.isAsking ? wallWords.asking(name, at) : wallWords.perhapsFed(at, name), 5],
    [wallWords.perhapsAt(at), 7],
    [wallWords.perhaps, 8.5],
    ['', 0],
  ]
}

/** All the nest can say, then one thing less each time, the cheaper of its two last words first. */
function formsOf(details: Words, doubts: Words<string | null>): [Form, ...Form[]] {
  const formAt = (detailAt: number, doubtAt: number): [Form, ...Form[]] => {
    const [detail, detailWorth] = details[detailAt] ?? ['', 0]
    const [doubt, doubtWorth] = doubts[doubtAt] ?? [null, 0]
    const worths = [detailWorth, doubtWorth].filter((worth) => worth > 0)
    if (worths.length === 0) return [{ detail, doubt, worth: 0 }]
    const worth = Math.min(...worths)
    const fewer =
      worth === detailWorth ? formAt(detailAt + 1, doubtAt) : formAt(detailAt, doubtAt + 1)
    return [{ detail, doubt, worth }, ...fewer]
  }
  return formAt(0, 0)
}

/** The nest as a token; `time` writes an instant as the room reads it. */
export function tokenOf(nest: NestSummary, time: Time, nowMs: InstantMs): Token {
  return {
    nest: nest.nest,
    label: nest.label,
    shown: nest.isQuarantined ? `[${nest.label}]` : nest.label,
    kind: kindOf(nest),
    forms: formsOf(detailWords(nest, time, nowMs), doubtWords(nest.doubt, time)),
  }
}
