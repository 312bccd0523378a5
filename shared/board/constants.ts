// Names and limits that both sides need without the schema library: the browser imports this file,
// never the schemas. Every limit says what it keeps from breaking.

import { hourMs, minuteMs, secondMs } from '../base/values.ts'

/** How a bird is fed; a sign-off is given for each. */
export const techniques = [
  'gapeSyringe',
  'insectTweezers',
  'cropTube',
  'swiftHand',
  'hummingbird',
  'assisted',
] as const
export type Technique = (typeof techniques)[number]

/** What a person may be signed off for: a technique, or one of the duties beside feeding. */
export const signOffs = [...techniques, 'fluids', 'medicines', 'quarantine', 'mentor'] as const
export type SignOff = (typeof signOffs)[number]

export const roles = ['trainee', 'volunteer', 'lead', 'permitHolder', 'vet'] as const
export type Role = (typeof roles)[number]

/** What became of one bird at one visit. Nothing starts filled in. */
export const outcomes = ['ate', 'some', 'refused', 'assisted', 'notFed'] as const
export type Outcome = (typeof outcomes)[number]

export const notFedReasons = ['asleep', 'cropFull', 'away', 'other'] as const
export const crops = ['full', 'empty', 'cannotTell'] as const
export type Crop = (typeof crops)[number]
/** What a person may be called for: fluids for a bird, a decision on an arrival, or plain help. */
export const requestKinds = ['fluids', 'noDroppings', 'help'] as const
export type RequestKind = (typeof requestKinds)[number]

/** Why the lead is told something, once. */
export const noticeReasons = [
  'nobodySignedOff',
  'threeAsked',
  'lateTen',
  'nobodyForRequest',
  'tooQuick',
  'mentorGone',
  'signOffGone',
] as const
export type NoticeReason = (typeof noticeReasons)[number]
export const fluidRoutes = ['byMouth', 'underSkin', 'tube'] as const

// Time, from the rules of claims and doubts.
export const askMaxAgeMs = 15 * secondMs
export const toNestMs = 2 * minuteMs
export const setUpMs = 30 * secondMs
export const perBirdMs = 90 * secondMs
export const feedLeaseMs = { least: 4 * minuteMs, most: 15 * minuteMs } as const
export const moreTimeMs = 5 * minuteMs
export const claimMaxMs = 30 * minuteMs
export const untouchedMs = 2 * minuteMs
export const afterOutageMs = 60 * secondMs
export const ownerOnlyMs = 60 * secondMs
export const freshStartMs = 60 * secondMs
export const takeBackMs = 10 * secondMs
export const lookAgainOverdueMs = 10 * minuteMs
/** From here a late nest is offered to somebody, and an offer waits so long for its answer. */
export const offerFromLateMs = 5 * minuteMs
export const offerMs = 45 * secondMs
export const offersMax = 3
/** From here the lead is told of a late nest, whoever was asked. */
export const leadFromLateMs = 10 * minuteMs
/** Nothing done for so long, and one offer unanswered: not counted as a pair of hands. */
export const silentMs = 15 * minuteMs
/** A record this quick is kept and marked; nobody feeds a bird in less (ours, no source). */
export const tooQuickPerBirdMs = 15 * secondMs
/** An automatic request waits longer than a record can be taken back. */
export const requestAfterMs = 15 * secondMs
/** A bird that refuses so many feeds running needs somebody trained (common practice, no source). */
export const refusalsRunning = 2
/** No droppings this long after fluids: a person decides (HRB2 p. 5, 8, 333, 578). */
export const noDroppingsAfterMs = hourMs
/** A look at a warming arrival falls due again after this; 15-20 min warm and dark (HRB2 p. 5, 8). */
export const settlingLookMs = 20 * minuteMs
/** A hold's look-again may not lie further off than this: what is held must be seen again today. */
export const lookAgainMaxMs = 24 * hourMs

// Size: the board is sent whole to every screen and must stay small.
export const nestsMax = 120
export const birdsMax = 400
export const birdsPerNestMax = 12
export const plansMax = 120
export const incubatorsMax = 30
export const peopleMax = 60
export const doubtsPerNestMax = 4
export const roundsPerNestMax = 8
export const feedsPerBirdMax = 6
export const setAsideMax = 20
export const requestsMax = 50
export const noticesMax = 50
export const daysKept = 3
export const massesKept = 2

// Text: what a tired hand types, never an essay that could fill a disk.
export const labelMax = 6
export const nameMax = 40
export const noteMax = 500
export const wordMax = 60
