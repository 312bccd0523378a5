// Every English sentence of the screens. Pieces are functions of data, so that no sentence is put
// together anywhere else; trade words are those of the glossary.

import { unreachable } from '../../shared/base/control.ts'
import type { Amount, InstantMs, NestId, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { Outcome, Role, Technique } from '../../shared/board/constants.ts'
import type { Right } from '../../shared/board/rights.ts'
import type { NotReady, Rejection } from '../../shared/rules/rejection.ts'
import type { CropState } from '../../shared/views/birdRow.ts'
import type { WhyThisOne } from '../../shared/views/nextView.ts'
import type { Tally } from '../../shared/views/tally.ts'
import type { FaultCode, HouseCondition } from '../../shared/wire/frames.ts'

/** How ids and instants are read out; the page knows the board, the words do not. */
export type Say = {
  readonly time: (atMs: InstantMs) => string
  readonly person: (person: PersonId | null) => string
  readonly nest: (nest: NestId) => string
}

const count = (n: number, one: string, more = `${one}s`): string => `${n} ${n === 1 ? one : more}`

export const minutesWords = (n: number): string => count(n, 'minute')
export const birdsWords = (n: number): string => count(n, 'bird')
export const formerHelper = 'a former helper'
export const orList = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} or ${items.at(-1)}`
export const andList = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** "0.6 mL", "3 pieces", "1.2 g". */
export function amountWords(amount: Amount): string {
  switch (amount.unit) {
    case 'uL':
      return `${amount.n / 1000} mL`
    case 'mg':
      return `${amount.n / 1000} g`
    case 'pieces':
      return count(amount.n, 'piece')
    default:
      return unreachable(amount.unit)
  }
}

export const outcomeWords: Readonly<Record<Outcome, string>> = {
  ate: 'ate',
  some: 'some',
  refused: 'refused',
  assisted: 'assisted',
  notFed: 'not fed',
}

export const notFedWords = {
  asleep: 'asleep',
  cropFull: 'crop full',
  away: 'not there',
  other: 'another reason',
} as const

export const cropWords: Readonly<Record<Exclude<CropState, 'notDoubted'>, string>> = {
  look: 'look first',
  full: 'full',
  empty: 'empty',
  cannotTell: 'cannot tell',
}

export const techniqueWords: Readonly<Record<Technique, string>> = {
  gapeSyringe: 'by syringe, gaping',
  insectTweezers: 'insects by tweezers',
  cropTube: 'by crop tube',
  swiftHand: 'swift, by hand',
  hummingbird: 'hummingbird feeding',
  assisted: 'assisted feeding',
}

export const roleWords: Readonly<Record<Role, string>> = {
  trainee: 'trainee',
  volunteer: 'volunteer',
  lead: 'shift lead',
  permitHolder: 'permit holder',
  vet: 'vet',
}

/** "3 ate, 1 refused". */
export const tallyWords = (tally: readonly Tally[]): string =>
  tally.map(({ outcome, n }) => `${n} ${outcomeWords[outcome]}`).join(', ')

export const bandWords = (bird: { readonly band: string | null; readonly place: number }): string =>
  bird.band ?? `bird ${bird.place}`

export const perhapsFed = (time: string, name: string): string =>
  `Perhaps fed ${time} by ${name}: look before you feed.`

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

/** What is wrong with the house itself, for everybody. */
export function houseWords(condition: HouseCondition, say: Pick<Say, 'time'>): string {
  switch (condition.type) {
    case 'journalFailing':
      return `Records are not saved since ${say.time(condition.sinceMs)}. Use paper.`
    case 'clockJumped':
      return `The server's clock jumped by ${minutesWords(Math.round(Math.abs(condition.byMs) / 60_000))}. Check it.`
    case 'damageFound':
      return 'An old record is damaged. Tell whoever keeps the server.'
    default:
      return unreachable(condition)
  }
}

export const whyThisWords: Readonly<Record<WhyThisOne, (late: number) => string>> = {
  latest: (late) => `${minutesWords(late)} late. Nobody you may feed has waited longer.`,
  late: (late) => `${minutesWords(late)} late.`,
  due: () => 'Due now.',
  window: () => 'Not due yet, but it may be fed.',
}

/** What a record was, where it waits to be saved. */
export const commandWords: Readonly<Record<Command['type'], string>> = {
  ClaimNest: 'claim',
  GiveBack: 'give back',
  MoreTime: 'more time',
  BeginShift: 'begin shift',
  EndShift: 'end shift',
  BeginBreak: 'begin break',
  EndBreak: 'end break',
  SetHold: 'hold',
  LiftHold: 'lift hold',
  ReleaseArrival: 'release',
  AddPerson: 'new person',
  SetSignOffs: 'sign-offs',
  RemovePerson: 'person leaves',
  AddIncubator: 'new incubator',
  SetPlan: 'care plan',
  AdmitBrood: 'new brood',
  StartFeed: 'nest opened',
  AnswerBirds: 'feed',
  CalledAway: 'called away',
  SayWhatHappened: 'what happened',
  Looked: 'crops looked at',
  TakeBackFeed: 'taken back',
  CorrectFeed: 'correction',
  HoldBird: 'hold on a bird',
  BoxArrived: 'a box arrived',
  BirdSeen: 'bird looked at',
  Weighed: 'weighed',
  IncubatorRead: 'incubator read',
  FluidsGiven: 'fluids given',
  DeclineOffer: 'offer declined',
  OfferNest: 'somebody asked',
  TakeRequest: 'call taken',
  DeclineRequest: 'cannot come',
  ResolveRequest: 'call dealt with',
  Acknowledge: 'notice read',
  SetMentor: 'mentor',
  SetRoom: 'room settings',
  MoveNest: 'nest moved',
  MoveBird: 'bird moved',
  CallHelp: 'help called',
  BirdFound: 'bird found',
  Withdrawn: 'withdrawn',
}

export const notLive = 'NOT LIVE'
export const notLiveSince = (time: string): string => `NOT LIVE since ${time}`

/** Why a page is not live, where waiting alone does not mend it; nothing for a plain silence. */
export const whyNotLive = (why: FaultCode | 'silent' | 'behind' | 'otherBoard'): string => {
  if (why === 'silent') return ''
  return why === 'behind' || why === 'otherBoard' ? 'The board is fetched anew.' : faultWords[why]
}

/** The handheld speaks to one person, in the order of a round. */
export const handWords = {
  live: 'Live',
  connecting: 'connecting …',
  looking: 'Looking for the room …',
  whoAreYou: 'Who are you?',
  nobody: 'Name',
  noPeople: 'Nobody is on the board yet.',
  signedInHere: 'signed in here',
  pinOf: (name: string) => `${name}: your PIN`,
  codeOf: (name: string) => `${name}: your one-time code`,
  newPin: 'Now choose a PIN of 4 to 8 figures',
  newPinAgain: 'The same PIN again',
  pinsDiffer: 'The two PINs differ. Choose again.',
  useCode: 'First time? Use a code',
  usePin: 'I have a PIN',
  enter: 'Enter',
  erase: 'Erase',
  back: 'Back',
  asking: 'Asking …',
  claim: (label: string) => `Claim ${label}`,
  claimSmall: 'and nobody else will',
  lookFirst: 'I will look first',
  lookFirstSmall: (label: string) => `claims ${label}, amounts hidden`,
  sureEarly: 'Feed early, I mean it',
  sureEarlySmall: (time: string) => `its time begins ${time}`,
  extra: 'An extra feed …',
  extraWhy: (label: string) => `Why does ${label} need an extra feed?`,
  another: 'Another nest',
  more: 'More',
  incubator: (label: string) => `Incubator ${label}`,
  incubatorTitle: 'Incubator',
  notSaved: 'Records not saved',
  quarantined: 'Quarantined: last, then change hands and tools.',
  every: (birds: string, species: string) => (species ? `${birds}, ${species}` : birds),
  nothingNow: 'Nothing to feed now.',
  nextAt: (label: string, time: string) => `Next is ${label} at ${time}.`,
  closedUntil: (time: string) => `The room is closed until ${time}.`,
  nothingForYou: 'No nest here waits for you.',
  offShift: 'You are not on shift.',
  beginShift: 'Begin my shift',
  onBreak: (time: string | null) => (time ? `On a break until ${time}.` : 'On a break.'),
  endBreak: 'I am back',
  beginBreak: 'Break',
  chooseNest: 'Which nest?',
  yours: (label: string) => `${label} is yours`,
  each: (plan: string, amount: string | null) => (amount ? `${plan}, ${amount} each` : plan),
  planFor: (bands: string, line: string) => `${line}: ${bands}`,
  amountHidden: 'Amount hidden: look first',
  planned: (amount: string) => `planned ${amount}`,
  cap: (amount: string) => `at most ${amount}`,
  overCap: (amount: string) => `more than the cap of ${amount}`,
  notFedHere: { held: 'on hold', settling: 'warming', notNow: 'not now' },
  allAte: (n: number) => (n === 1 ? 'It ate' : `All ${n} ate`),
  restAte: (n: number) => (n === 1 ? 'The last one ate' : `The other ${n} ate`),
  allAteSmall: (label: string) => `and put ${label} back`,
  countBack: 'Count back',
  goOn: 'Go on',
  keep: 'Keep',
  whatDidItDo: (band: string, label: string) => `${capital(band)}, nest ${label}`,
  whyNotFed: 'Why was it not fed?',
  backTitle: (brood: number, label: string) =>
    brood === 1 ? `Is it back in ${label}?` : `How many of ${brood} are back in ${label}?`,
  doorNotSeen: 'Door not seen shut',
  backIs: (back: number, brood: number, isDoorNotSeen: boolean) => {
    const count = brood === 1 ? (back === 1 ? 'Back' : 'Not back') : `${back} back`
    return `${count}, door ${isDoorNotSeen ? 'not seen' : 'shut'}`
  },
  saveAndTake: (label: string) => `save, and take ${label} next`,
  saveOnly: 'save, nothing next',
  calledAway: 'Called away',
  calledAwaySmall: 'the rest stays due',
  moreTime: 'More time',
  moreTimeSmall: (time: string) => `yours until ${time}`,
  noMoreTime: 'no more is left',
  nestIsOpen: 'Nest is open',
  nestIsOpenSmall: 'starts the clock',
  giveBack: (label: string) => `Give ${label} back`,
  giveBackSmall: 'not opened',
  sayFirst: (label: string) => `Done with ${label}: say what happened`,
  didYouFeed: (label: string, time: string) => `Did you feed ${label} at about ${time}?`,
  all: 'All',
  some: 'Some',
  none: 'None',
  whichFed: (label: string) => `Which of ${label} were fed?`,
  looked: 'Crops: what do you see?',
  allFull: (n: number) => (n === 1 ? 'It is full' : `All ${n} full`),
  allEmpty: (n: number) => (n === 1 ? 'It is empty' : `All ${n} empty`),
  allSeenFull: (label: string) => `All full: give ${label} back`,
  undo: (label: string) => `Undo ${label}`,
  undoSmall: (seconds: number) => `${seconds} s left`,
  takenBack: 'taken back',
  wasFedYes: 'Yes, it was fed',
  wasFedNo: 'No, it was not',
  wasFedUnknown: 'I do not know',
  alreadyFed: 'I already fed it, at\u00a0…',
  alreadyFedTitle: (label: string) => `When did you feed ${label}?`,
  justNow: 'Just now',
  agoWords: (n: number) => `${n} min ago`,
  atTime: (time: string) => `at ${time}`,
  saveFeed: 'Save this feed',
  holdBird: 'Hold a bird',
  hold: 'Hold',
  holdTitle: 'Do not feed: which?',
  holdWhy: (what: string) => `Do not feed ${what}: why?`,
  wholeNest: (label: string) => `all of ${label}`,
  lookAgainIn: 'Look again in',
  lift: 'Lift the hold',
  liftTitle: (what: string, why: string) => `${capital(what)} is on hold: ${why}. Why lift it?`,
  holdLine: (reason: string, by: string, time: string) =>
    `On hold: ${reason} (${by}). Look again ${time}.`,
  lookAgainAt: (label: string, bird: string | null) =>
    bird === null ? `Look again at nest ${label}` : `Look again at ${label}, ${bird}`,
  lookAgainWhy: (reason: string, waitingMinutes: number | null) =>
    waitingMinutes === null ? reason : `${reason}; waiting ${minutesWords(waitingMinutes)}`,
  moreLooks: (count: number) => `and ${count} more to look at`,
  settlingLine: (time: string) => `Warming, do not feed. Look again by ${time}.`,
  release: 'Release to feeding',
  releaseTitle: (label: string) => `Release ${label}: which care plan?`,
  droppings: 'I looked: droppings',
  noDroppings: 'I looked: no droppings',
  boxArrived: 'A box arrived',
  boxTitle: 'How many, how big, where?',
  boxLabel: (label: string) => `It becomes nest ${label}`,
  boxSave: 'On the board',
  sizes: { small: 'small', medium: 'medium', large: 'large', unknown: 'not known' },
  signOut: 'Sign out',
  switchPerson: 'Someone else',
  records: (n: number) => `${count(n, 'record')} ${n === 1 ? 'waits' : 'wait'} here`,
  oldest: (n: number) => (n === 0 ? 'less than a minute old' : `the oldest ${minutesWords(n)}`),
  goByThemselves: 'They go by themselves once live again.',
  waits: 'waits',
  nothingWaits: 'Nothing waits. All is saved.',
  stuck: (n: number) => `${count(n, 'record')} not taken. Tell the lead.`,
  again: 'Send again',
  discard: 'Drop it: it is on paper',
  sayAloud: 'Say the nest aloud before you open it, and write it on paper.',
  othersMayHave: (time: string) => `Others may have fed since ${time}.`,
  lapsed: (label: string) => `Your time for ${label} ran out.`,
  calledOff: (label: string) => `Stop: somebody else recorded ${label}. It is no longer yours.`,
  stop: {
    held: 'Stop: this nest was put on hold.',
    fedByOther: 'Stop: somebody else just recorded a feed here.',
    perhapsFed: 'Stop: somebody may have fed this. Look first.',
  },
  lastFed: (time: string) => `fed ${time}`,
  neverFed: 'not fed here yet',
  waitingHere: 'a record of it waits here',
  rounds: 'Latest records',
  roundLine: (time: string, name: string, tally: string) => `${time} ${name}: ${tally}`,
  storeFailing: 'This device cannot keep records. Write on paper and tell the lead.',
  notPaired: 'This device could not be paired. Ask whoever keeps the server.',
  noRoom: 'Which room? Open the page with its name, as in /nursery/hand.',
} as const

/** Reasons are chosen, never typed, in a round. They are stored as they read. */
export const holdReasons = ['crop full', 'crop slow', 'looks ill', 'vet to see', 'medicine first']
export const liftReasons = ['looked, fine', 'crop has emptied', 'vet says so', 'set by mistake']
export const extraReasons = ['crop empty and begging', 'took too little', 'vet says so']

/** "Perhaps fed 09:10 by Ana" as the nest's state in a list. */
export const stateWords = {
  claimed: (name: string, time: string) => `${name} has it since ${time}`,
  held: (reason: string) => `on hold: ${reason}`,
  settling: 'warming, do not feed',
  late: (minutes: number) => `${minutesWords(minutes)} late`,
  due: 'due now',
  soon: (time: string) => `may be fed, due ${time}`,
  later: (time: string) => `due ${time}`,
  unplanned: 'no care plan yet',
  perhaps: (time: string) => `perhaps fed ${time}`,
} as const
