// Why an ask was not granted: states of the world, never English. Screens put them into words.

import type {
  BirdId,
  IncubatorId,
  InstantMs,
  NestId,
  PersonId,
  PlanId,
  RequestId,
} from '../base/values.ts'
import type { Technique } from '../board/constants.ts'
import type { Right } from '../board/rights.ts'

/** Why one bird may not be fed by this person now. */
export type NotReady =
  | { readonly type: 'settling' }
  | { readonly type: 'held'; readonly reason: string }
  | { readonly type: 'noPlan' }
  /** Somebody trained is called for it; it waits until they are done. */
  | { readonly type: 'requestOpen'; readonly request: RequestId }
  | {
      readonly type: 'needsSignOff'
      readonly technique: Technique
      readonly have: readonly PersonId[]
    }
  | {
      readonly type: 'tooSoon'
      readonly readyAtMs: InstantMs
      readonly fedAtMs: InstantMs | null
      /** Whether saying "sure, early" is enough, or an extra feed with a reason is needed. */
      readonly needs: 'sureEarly' | 'extra'
    }

export type Rejection =
  | { readonly code: 'NotAllowed'; readonly needs: Right }
  | { readonly code: 'Expired' }
  | { readonly code: 'Withdrawn' }
  | { readonly code: 'NotOnShift' }
  | { readonly code: 'OnBreak' }
  | { readonly code: 'NestUnknown' }
  | { readonly code: 'NestTaken'; readonly person: PersonId; readonly sinceMs: InstantMs }
  | {
      readonly code: 'NothingReady'
      readonly birds: readonly { readonly bird: BirdId; readonly why: NotReady }[]
    }
  /** A trainee's mentor is not on shift; null where none is named. */
  | { readonly code: 'MentorAway'; readonly mentor: PersonId | null }
  | { readonly code: 'FinishFirst'; readonly nest: NestId }
  | { readonly code: 'AnswerFirst'; readonly claimNo: number }
  | { readonly code: 'InDoubt'; readonly doubts: readonly number[] }
  | { readonly code: 'NotYours' }
  | { readonly code: 'NotFree'; readonly person: PersonId }
  | { readonly code: 'NoMentor'; readonly person: PersonId }
  | { readonly code: 'RequestUnknown' }
  | { readonly code: 'RequestTaken'; readonly person: PersonId; readonly sinceMs: InstantMs }
  | { readonly code: 'ResolveFirst'; readonly request: RequestId }
  | { readonly code: 'NestInHands'; readonly nest: NestId; readonly person: PersonId }
  | { readonly code: 'LastBird' }
  | { readonly code: 'QuarantineDiffers' }
  | { readonly code: 'SayWhatHappenedFirst' }
  | { readonly code: 'LongEnough'; readonly leaseEndsAtMs: InstantMs }
  | { readonly code: 'LookAgainTooFar' }
  | { readonly code: 'NotHeld' }
  | { readonly code: 'NotSettling' }
  | { readonly code: 'LabelTaken' }
  | { readonly code: 'BandTaken' }
  | { readonly code: 'PersonUnknown'; readonly person: PersonId }
  | { readonly code: 'IncubatorUnknown'; readonly incubator: IncubatorId }
  | { readonly code: 'PlanUnknown'; readonly plan: PlanId }
  | { readonly code: 'BirdUnknown'; readonly bird: BirdId }
  | {
      readonly code: 'BoardFull'
      readonly what: 'nests' | 'birds' | 'people' | 'incubators' | 'plans'
    }
