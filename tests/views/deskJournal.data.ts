// One fact of every kind, and the sentence the desk's journal has for it. Ids are invented; the sentence
// must show none of them.

import type { BirdId, InstantMs } from '../../shared/base/values.ts'
import type { EventType, RoomEvent } from '../../shared/board/events.ts'
import type { CarePlan } from '../../shared/board/parts.ts'
import { requestOf } from '../support/callBuilder.ts'
import {
  birdOf,
  incubatorOf,
  nestOf,
  personOf,
  planOf,
  privateRef,
} from '../support/roomBuilder.ts'

type Bare<E> = E extends { type: EventType } ? Omit<E, 'v'> : never

const [nest, person, bird, request] = [nestOf(1), personOf(1), birdOf(1), requestOf(1)]
const atMs: InstantMs = 1_000
const day = { date: '2026-05-16', opensAtMs: 0, closesAtMs: 1, nextOpensAtMs: 2 }
const on = { nest, no: 4 }
const by = { by: person, atMs }
const hold = { reason: 'limping', by: person, setAtMs: 0, lookAgainAtMs: atMs }
const birds: BirdId[] = [bird, birdOf(2)]

const plan: CarePlan = {
  ...{ id: planOf(1), label: 'Finch', earlyPercent: 10, source: 'invented' },
  technique: 'gapeSyringe',
  timing: { type: 'every', intervalMs: 1_800_000 },
  planned: null,
  cap: null,
}

const facts: readonly (readonly [Bare<RoomEvent>, string])[] = [
  [
    {
      ...{ type: 'RoomFounded', room: 'meadow', season: '2026', title: 'Meadow', zone: 'UTC' },
      ...{ opensMinute: 0, closesMinute: 1440, civilOffsetMs: 0, day },
    },
    'The room Meadow began.',
  ],
  [{ type: 'RoomOpened', atMs }, 'The server began to serve the room.'],
  [{ type: 'DayOpened', day }, 'The day 2026-05-16 opened.'],
  [{ type: 'DayClosed', atMs }, 'The day closed.'],
  [{ type: 'CivilOffsetChanged', offsetMs: 1, day }, 'The clock on the wall was set.'],
  [
    {
      type: 'PersonAdded',
      person,
      role: 'volunteer',
      signOffs: ['gapeSyringe'],
      name: privateRef(1),
    },
    'Ana was added, signed off for syringe.',
  ],
  [{ type: 'SignOffsSet', person, signOffs: [] }, 'Ana is signed off for nothing.'],
  [{ type: 'PersonRemoved', person }, 'Ana was removed.'],
  [{ type: 'IncubatorAdded', incubator: incubatorOf(1), label: '7' }, 'Incubator 7 was added.'],
  [
    { type: 'PlanSet', plan, replaces: planOf(2) },
    'The care plan “Finch” (by syringe, gaping) was set in place of another.',
  ],
  [{ type: 'ShiftBegun', person, atMs }, 'Ana began a shift.'],
  [{ type: 'ShiftEnded', person, atMs }, 'Ana ended the shift.'],
  [{ type: 'BreakBegun', person, atMs, backAtMs: atMs }, 'Ana went on a break, back 09:10.'],
  [{ type: 'BreakEnded', person, atMs }, 'Ana came back.'],
  [{ type: 'MentorSet', person, mentor: null }, 'Ana has no mentor any more.'],
  [{ type: 'RoomSet', usesStartTap: true }, 'Feeders tap “nest is open” from now on.'],
  [{ type: 'PersonUnreachable', person, atMs }, 'No screen of Ana is heard.'],
  [{ type: 'PersonReachable', person, atMs }, 'A screen of Ana is heard again.'],
  [
    { type: 'LeadTold', no: 1, why: 'lateTen', atMs, nest },
    'The lead was told: Nest F was ten minutes late.',
  ],
  [{ type: 'NoticeSeen', no: 1, ...by }, 'A notice to the lead was read.'],
  [
    {
      ...{ type: 'NestOpened', nest, label: 'F', incubator: incubatorOf(1), isQuarantined: false },
      birds: [{ id: bird, band: null, species: null, plan: null }],
      ...{ atMs, lookDueAtMs: atMs },
    },
    'A box of 1 bird became nest F, to be warmed; look by 09:10.',
  ],
  [
    { type: 'ArrivalReleased', birds: [bird], plan: planOf(1), ...by },
    'red of F released to feeding, plan “Finch”.',
  ],
  [{ type: 'NestMoved', nest, incubator: incubatorOf(1), ...by }, 'Nest F moved to incubator 3.'],
  [{ type: 'BirdMoved', bird, nest, ...by }, 'red of F moved to nest F.'],
  [{ type: 'BirdsShort', ...on, missing: 1, ...by }, '1 bird of F not counted back.'],
  [{ type: 'BirdsFound', nest, ...by }, 'The birds of F are all there again.'],
  [
    {
      type: 'RequestRaised',
      request,
      kind: 'help',
      why: 'byHand',
      nest,
      bird: null,
      by: person,
      atMs,
    },
    'Help was called for nest F. Called by hand.',
  ],
  [{ type: 'RequestTaken', request, person, atMs }, 'Ana took the call.'],
  [{ type: 'RequestDeclined', request, person, atMs }, 'Ana cannot take the call.'],
  [{ type: 'RequestResolved', request, ...by }, 'The call was dealt with.'],
  [{ type: 'HoldSet', nest, hold }, 'Nest F on hold: limping. Look again 09:10.'],
  [
    { type: 'HoldLifted', nest, bird, ...by, why: 'looked, fine' },
    'The hold on red of F was lifted: looked, fine.',
  ],
  [
    { type: 'BirdSeen', bird, ...by, signs: ['weak'], droppings: 'none' },
    'red of F was looked at: weak; no droppings.',
  ],
  [{ type: 'Weighed', bird, ...by, massMg: 14_230 }, 'red of F weighed 14.2 g.'],
  [
    { type: 'IncubatorRead', incubator: incubatorOf(1), atMs, tempDeciC: 352, humidityPercent: 50 },
    'Incubator 3 read 35.2 °C, 50 %.',
  ],
  [
    {
      ...{ type: 'FluidsGiven', bird, ...by, fluid: 'saline', route: 'byMouth' },
      ...{ given: { unit: 'uL', n: 200 }, isWarmed: true, marks: [] },
    },
    'red of F was given 0.2 mL of saline by mouth, warmed.',
  ],
  [
    {
      ...{ type: 'NestClaimed', nest, claimNo: 4, person, birds, atMs, startedAtMs: atMs },
      ...{ startIs: 'estimated', leaseEndsAtMs: atMs },
    },
    'Ana took nest F, 2 birds.',
  ],
  [
    { type: 'OfferMade', nest, person, by: null, atMs, endsAtMs: atMs },
    'Ana was asked to take nest F.',
  ],
  [
    { type: 'OfferEnded', nest, person, how: 'unanswered', atMs },
    'Asked for nest F, Ana did not answer.',
  ],
  [
    { type: 'LeaseExtended', nest, claimNo: 4, leaseEndsAtMs: atMs },
    'More time for nest F, until 09:10.',
  ],
  [
    { type: 'FeedStarted', nest, claimNo: 4, startedAtMs: atMs, leaseEndsAtMs: atMs },
    'Nest F was opened.',
  ],
  [
    {
      ...{ type: 'RoundRecorded', ...on, person, atMs, startedAtMs: atMs, standing: 'late' },
      ...{ isSaid: true, back: 2, marks: [] },
      answers: birds.map((one) => ({ bird: one, outcome: 'ate', intervalMs: 0 })),
    },
    'Nest F at 09:10: 2 ate (came late, said, 2 counted back).',
  ],
  [
    { type: 'RoundMoved', ...on, ...by, reason: 'wrong label', toNest: nestOf(2), toNo: 5 },
    'A record of nest F was put onto nest F: wrong label.',
  ],
  [
    {
      type: 'RoundCorrected',
      ...on,
      ...by,
      answers: [{ bird, outcome: 'refused' }],
      reason: 'mistyped',
    },
    'A record of nest F was corrected for 1 bird: mistyped.',
  ],
  [{ type: 'RoundTakenBack', ...on, ...by }, 'A record of nest F was taken back.'],
  [
    { type: 'ClaimBirdsStruck', nest, claimNo: 4, birds },
    '2 birds of nest F taken out of the claim.',
  ],
  [
    { type: 'ClaimEnded', nest, claimNo: 4, how: 'lapsed', atMs },
    'Nest F was not heard of again: its time ran out.',
  ],
  [
    { type: 'StopCalled', nest, claimNo: 4, why: 'held' },
    'Stop at nest F: the nest was put on hold.',
  ],
  [
    {
      ...{ type: 'DoubtRaised', ...on, kind: 'silent', owner: person, aboutAtMs: atMs },
      ...{ raisedAtMs: atMs, birds },
    },
    'Nest F is in doubt, about 09:10: perhaps fed, and nobody has said. Ana is asked.',
  ],
  [{ type: 'DoubtShrunk', ...on, birds }, 'The doubt on nest F is now about 2 birds.'],
  [
    { type: 'DoubtEnded', ...on, how: 'said', said: 'none' },
    'The doubt on nest F is over: somebody said none were fed.',
  ],
  [
    { type: 'BirdsLooked', nest, ...by, looks: [{ bird, crop: 'full' }] },
    'Crops of nest F: red of F full.',
  ],
  [
    { type: 'ReportSetAside', ...by, why: 'roundUnknown', nest, body: {} },
    'A record of nest F did not fit and is kept for review: the record it speaks of is not known.',
  ],
]

export const sentences: readonly (readonly [EventType, RoomEvent, string])[] = facts.map(
  ([fact, words]) => [fact.type, { ...fact, v: 1 } as RoomEvent, words],
)
