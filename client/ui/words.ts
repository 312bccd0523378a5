// The English that several screens share. Pieces are functions of data, so that no sentence is put
// together anywhere else; trade words are those of the glossary. A screen's own sentences stand with it.

import { unreachable } from '../../shared/base/control.ts'
import type { Amount, InstantMs, NestId, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { Outcome, Role, Technique } from '../../shared/board/constants.ts'
import type { CropState } from '../../shared/views/birdRow.ts'
import type { Tally } from '../../shared/views/tally.ts'
import type { HouseCondition } from '../../shared/wire/frames.ts'

/** How ids and instants are read out; the page knows the board, the words do not. */
export type Say = {
  readonly time: (atMs: InstantMs) => string
  readonly person: (person: PersonId | null) => string
  readonly nest: (nest: NestId) => string
}

/** "1 piece", "3 pieces". */
export const count = (n: number, one: string, more = `${one}s`): string =>
  `${n} ${n === 1 ? one : more}`

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

export const holdReasons = ['crop full', 'crop slow', 'looks ill', 'vet to see', 'medicine first']
export const liftReasons = ['looked, fine', 'crop has emptied', 'vet says so', 'set by mistake']
