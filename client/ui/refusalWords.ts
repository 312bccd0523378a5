// Why something was not granted or not taken, in words: the rules' reasons and the edge's faults.

import { unreachable } from '../../shared/base/control.ts'
import type { Right } from '../../shared/board/rights.ts'
import type { NotReady, Rejection } from '../../shared/rules/rejection.ts'
import type { FaultCode } from '../../shared/wire/frames.ts'
import { capital, count, orList, type Say, techniqueWords } from './words.ts'

const rightWords: Readonly<Record<Right, string>> = {
  present: 'someone of this room',
  onShift: 'someone on shift',
  lead: 'the shift lead',
  release: 'the shift lead, or someone signed off for fluids',
  fluids: 'someone on shift signed off for fluids',
  permitHolder: 'the permit holder',
}

/** Why one bird is not to be fed now. */
export function notReadyWords(why: NotReady, say: Say): string {
  switch (why.type) {
    case 'settling':
      return 'warming, not released to feeding'
    case 'held':
      return `on hold: ${why.reason}`
    case 'noPlan':
      return 'no care plan yet'
    case 'requestOpen':
      return 'somebody trained is called for it'
    case 'needsSignOff':
      return why.have.length === 0
        ? `needs a sign-off nobody here has: ${techniqueWords[why.technique]}`
        : `needs a sign-off (${techniqueWords[why.technique]}): ask ${orList(why.have.map(say.person))}`
    case 'tooSoon':
      return why.fedAtMs === null
        ? `may be fed from ${say.time(why.readyAtMs)}`
        : `fed ${say.time(why.fedAtMs)}, may be fed from ${say.time(why.readyAtMs)}`
    default:
      return unreachable(why)
  }
}

/** The reasons of several birds, each said once. */
function nothingReadyWords(
  birds: Extract<Rejection, { code: 'NothingReady' }>['birds'],
  say: Say,
): string {
  const reasons = [...new Set(birds.map(({ why }) => notReadyWords(why, say)))]
  return reasons.length === 0 ? 'No bird here may be fed.' : `${capital(reasons.join('; '))}.`
}

/** Why an ask was not granted, for the person who asked. */
export function refusalWords(why: Rejection, say: Say): string {
  switch (why.code) {
    case 'NestTaken':
      return `${say.person(why.person)} has it since ${say.time(why.sinceMs)}.`
    case 'NothingReady':
      return nothingReadyWords(why.birds, say)
    case 'NotAllowed':
      return `This is for ${rightWords[why.needs]}.`
    case 'MentorAway':
      return why.mentor === null
        ? 'You need a mentor first. Ask the lead.'
        : `${say.person(why.mentor)}, your mentor, is not on shift.`
    case 'NotFree':
      return `${say.person(why.person)} is not free.`
    case 'RequestTaken':
      return `${say.person(why.person)} has it since ${say.time(why.sinceMs)}.`
    case 'NestInHands':
      return `${say.person(why.person)} has nest ${say.nest(why.nest)} in hand.`
    case 'FinishFirst':
      return `Finish nest ${say.nest(why.nest)} first.`
    case 'LongEnough':
      return `No more time: the claim runs to ${say.time(why.leaseEndsAtMs)}.`
    case 'PersonUnknown':
      return 'This person is no longer on the board.'
    case 'BoardFull':
      return `The board can hold no more ${why.what}.`
    default:
      return plainRefusals[why.code]
  }
}

type Plain = Exclude<
  Rejection['code'],
  | 'NestTaken'
  | 'NothingReady'
  | 'NotAllowed'
  | 'FinishFirst'
  | 'LongEnough'
  | 'MentorAway'
  | 'NotFree'
  | 'RequestTaken'
  | 'NestInHands'
  | 'PersonUnknown'
  | 'BoardFull'
>

const plainRefusals: Readonly<Record<Plain, string>> = {
  Expired: 'Asked too long ago. Ask again.',
  Withdrawn: 'No answer came in time. Ask again.',
  NotOnShift: 'Begin your shift first.',
  OnBreak: 'You are on a break. Come back first.',
  NestUnknown: 'This nest is no longer on the board.',
  AnswerFirst: 'Say first whether you fed it.',
  InDoubt: 'Somebody may have fed it. Look first.',
  NotYours: 'You no longer have this nest.',
  SayWhatHappenedFirst: 'Say what happened before you give it back.',
  LookAgainTooFar: 'The next look must be within a day.',
  NotHeld: 'It is not on hold.',
  NotSettling: 'It is already released.',
  LabelTaken: 'Another one has this label.',
  BandTaken: 'Another bird of this nest has this band.',
  IncubatorUnknown: 'This incubator is no longer on the board.',
  PlanUnknown: 'This care plan is no longer in use.',
  BirdUnknown: 'This bird is no longer on the board.',
  NoMentor: 'This person cannot be a mentor: the sign-off is missing.',
  RequestUnknown: 'This call is over.',
  ResolveFirst: 'You are called for somewhere. Finish that, or say you cannot.',
  LastBird: 'The last bird of a nest stays in it.',
  QuarantineDiffers: 'One of the two nests is in quarantine. Decide that first.',
}

/** A message the server would not take. */
export const faultWords: Readonly<Record<FaultCode, string>> = {
  malformed: 'The server did not understand this screen. Reload the page.',
  tooLarge: 'That was too much text for one record.',
  protocolOther: 'This page is out of date. Reload it.',
  roomUnknown: 'There is no room of this name here.',
  helloFirst: 'The link is not ready. Try again.',
  notPaired: 'This device is not paired with the room.',
  notSignedIn: 'Sign in on this device first.',
  notAllowed: 'Only a permit holder signed in on this device may do that.',
  personUnknown: 'This person is not in the room.',
  pinWrong: 'Wrong PIN or code.',
  pinLocked: 'Too many tries.',
  readOnlyScreen: 'This screen only shows the board.',
  laneNotYours: 'This device must be paired again.',
  laneGap: 'Sending again …',
  tooMany: 'Too fast. Wait a moment.',
  busy: 'The server is busy. Try again.',
  journalFailing: 'Records cannot be saved now. Write on paper and tell the lead.',
  internal: 'The server made a mistake. Try again.',
}

export const lockedWords = (seconds: number): string =>
  `Too many tries. Wait ${count(seconds, 'second')}.`

/** Why a page is not live, where waiting alone does not mend it; nothing for a plain silence. */
export const whyNotLive = (why: FaultCode | 'silent' | 'behind' | 'otherBoard'): string => {
  if (why === 'silent') return ''
  return why === 'behind' || why === 'otherBoard' ? 'The board is fetched anew.' : faultWords[why]
}
