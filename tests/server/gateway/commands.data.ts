// One good command of every type; the compiler asks for a new one with every new command.

import type { NestId, PersonId } from '../../../shared/base/values.ts'
import type { Command, CommandOf, CommandType } from '../../../shared/board/commands.ts'
import { birdId, incubatorId, planId, requestId } from '../../../shared/board/parts.ts'

const nest = 'n1' as NestId
const bird = birdId.parse('b1')
const incubator = incubatorId.parse('i1')
const plan = planId.parse('c1')
const request = requestId.parse('r1')
const person = 'p2' as PersonId
const lookAgainAtMs = Date.UTC(2026, 4, 9, 9, 30)
const answers: CommandOf<'AnswerBirds'>['answers'] = [{ bird, outcome: 'ate' }]

const samples: { readonly [Type in CommandType]: Omit<CommandOf<Type>, 'type' | 'v'> } = {
  ClaimNest: { nest },
  GiveBack: { nest, claimNo: 1 },
  MoreTime: { nest, claimNo: 1 },
  DeclineOffer: { nest },
  OfferNest: { nest, person },
  TakeRequest: { request },
  DeclineRequest: { request },
  ResolveRequest: { request, private: { note: 'crop empties again' } },
  Acknowledge: { notice: 1 },
  BeginShift: {},
  EndShift: {},
  BeginBreak: {},
  EndBreak: {},
  SetHold: { nest, reason: 'asleep', lookAgainAtMs },
  LiftHold: { nest, whyLifted: 'awake' },
  ReleaseArrival: { birds: [bird], plan },
  AddPerson: { role: 'volunteer', signOffs: [], private: { name: 'Ira' } },
  SetSignOffs: { person, signOffs: ['gapeSyringe'] },
  RemovePerson: { person },
  SetMentor: { person, mentor: null },
  SetRoom: { usesStartTap: true },
  MoveNest: { nest, incubator },
  MoveBird: { bird, nest, isQuarantineDecided: true },
  AddIncubator: { label: '2' },
  SetPlan: {
    plan: {
      label: 'Wren',
      technique: 'gapeSyringe',
      timing: { type: 'every', intervalMs: 1_200_000 },
      earlyPercent: 10,
      planned: null,
      cap: null,
      source: 'HRB2 p. 674',
    },
  },
  AdmitBrood: {
    label: 'B',
    incubator,
    quarantined: false,
    birds: [{ band: 'red', species: 'BEWR', plan }],
  },
  StartFeed: { nest },
  AnswerBirds: { nest, answers },
  CalledAway: { nest, claimNo: 1 },
  SayWhatHappened: { nest, claimNo: 1, said: { type: 'all' } },
  Looked: { nest, looks: [{ bird, crop: 'full' }] },
  TakeBackFeed: { nest, claimNo: 1 },
  CorrectFeed: { nest, claimNo: 1, answers, reason: 'wrong bird' },
  CallHelp: { nest, private: { note: 'one bird is out' } },
  BirdFound: { nest },
  HoldBird: { bird, reason: 'asleep', lookAgainAtMs },
  BoxArrived: { label: 'C', incubator, howMany: 2, size: 'small' },
  BirdSeen: { bird, signs: ['sleepy'], droppings: 'notLooked' },
  Weighed: { bird, massMg: 9_000 },
  IncubatorRead: { incubator, tempDeciC: 350 },
  FluidsGiven: {
    bird,
    fluid: 'ringer',
    route: 'byMouth',
    given: { unit: 'uL', n: 100 },
    isWarmed: true,
  },
  Withdrawn: {},
}

export const everyCommand = Object.entries(samples).map(
  ([type, rest]) => ({ type, v: 1, ...rest }) as Command,
)
