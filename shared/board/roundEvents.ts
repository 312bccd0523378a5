// What happens to claims, offers, visits and doubts.

import { z } from 'zod'
import { birdsPerNestMax, crops } from './constants.ts'
import { event, mark, reason } from './eventShape.ts'
import {
  answer,
  birdId,
  birdList,
  instant,
  nestId,
  notKnownWhich,
  personId,
  visitNo,
} from './parts.ts'

/** One bird's part in a visit; `intervalMs` is the interval in force, kept because plans change. */
const feedAnswer = answer.extend({ intervalMs: z.int().min(0) })

export const roundEvents = [
  event('NestClaimed', {
    nest: nestId,
    claimNo: visitNo,
    person: personId,
    birds: birdList,
    atMs: instant,
    startedAtMs: instant,
    startIs: z.enum(['estimated', 'tapped']),
    leaseEndsAtMs: instant,
    extra: z.strictObject({ birds: birdList, reason, afterFeed: visitNo }).optional(),
  }),
  event('OfferMade', {
    nest: nestId,
    person: personId,
    /** The lead who asked; null where the board did. */
    by: personId.nullable(),
    atMs: instant,
    endsAtMs: instant,
  }),
  event('OfferEnded', {
    nest: nestId,
    person: personId,
    how: z.enum(['taken', 'declined', 'unanswered', 'over']),
    atMs: instant,
  }),
  event('LeaseExtended', { nest: nestId, claimNo: visitNo, leaseEndsAtMs: instant }),
  event('FeedStarted', {
    nest: nestId,
    claimNo: visitNo,
    startedAtMs: instant,
    leaseEndsAtMs: instant,
  }),
  event('RoundRecorded', {
    nest: nestId,
    no: visitNo,
    person: personId,
    atMs: instant,
    startedAtMs: instant,
    standing: z.enum(['current', 'late', 'unclaimed']),
    isSaid: z.boolean(),
    answers: z.array(feedAnswer).min(1).max(birdsPerNestMax),
    back: z.int().min(0).optional(),
    door: z.enum(['shut', 'notSeen']).optional(),
    marks: z.array(mark),
    extraAfter: visitNo.optional(),
    notKnownWhich: notKnownWhich.optional(),
  }),
  /** The record was of another nest: it no longer counts here, and stands there under `toNo`. */
  event('RoundMoved', {
    nest: nestId,
    no: visitNo,
    by: personId,
    atMs: instant,
    reason,
    toNest: nestId,
    toNo: visitNo,
  }),
  event('RoundCorrected', {
    nest: nestId,
    no: visitNo,
    by: personId,
    atMs: instant,
    answers: z.array(answer).min(1).max(birdsPerNestMax),
    reason,
  }),
  event('RoundTakenBack', { nest: nestId, no: visitNo, by: personId, atMs: instant }),
  event('ClaimBirdsStruck', { nest: nestId, claimNo: visitNo, birds: birdList }),
  event('ClaimEnded', {
    nest: nestId,
    claimNo: visitNo,
    how: z.enum(['fed', 'partly', 'notFed', 'givenBack', 'calledOff', 'lapsed']),
    atMs: instant,
  }),
  /** Tells the holder to stop and look: the nest was held, or another person's record came in. */
  event('StopCalled', {
    nest: nestId,
    claimNo: visitNo,
    why: z.enum(['held', 'fedByOther', 'perhapsFed']),
  }),
  event('DoubtRaised', {
    nest: nestId,
    no: visitNo,
    kind: z.enum(['silent', 'setAside', 'twice']),
    /** Who is asked; null puts the question to the lead. */
    owner: personId.nullable(),
    aboutAtMs: instant,
    raisedAtMs: instant,
    birds: birdList,
    /** The two records that lie too close together, where that is the doubt. */
    pair: z.tuple([visitNo, visitNo]).optional(),
  }),
  event('DoubtShrunk', { nest: nestId, no: visitNo, birds: birdList }),
  event('DoubtEnded', {
    nest: nestId,
    no: visitNo,
    how: z.enum(['recorded', 'said', 'neverAnswered', 'takenBack', 'looked', 'notTwice']),
    said: z.enum(['all', 'some', 'none']).optional(),
  }),
  event('BirdsLooked', {
    nest: nestId,
    by: personId,
    atMs: instant,
    looks: z
      .array(
        z.strictObject({
          bird: birdId,
          crop: z.enum(crops),
          /** A full crop stands for a feed at the latest doubtful time; the count of feeds is untouched. */
          fullSinceMs: instant.optional(),
          /** An empty crop makes the bird due from the start of the visit that found it. */
          emptyFromMs: instant.optional(),
        }),
      )
      .min(1)
      .max(birdsPerNestMax),
  }),
  /** A report that could not be applied, kept whole for review. */
  event('ReportSetAside', {
    by: personId,
    atMs: instant,
    why: z.enum([
      'birdUnknown',
      'nestUnknown',
      'personRemoved',
      'roundUnknown',
      'birdGone',
      'incubatorUnknown',
      'boardFull',
    ]),
    nest: nestId.optional(),
    body: z.record(z.string(), z.json()),
  }),
] as const
