// Who may ask what: every ask, every role, on shift and off, against a table written down here and
// nowhere else. Anyone on shift may work the round; a lead holds, lifts, admits; only the permit holder
// changes people, sign-offs and plans; a vet does not stand in for the permit holder.

import { describe, expect, it } from 'vitest'
import { type AskType, commandSchema } from '../../shared/board/commands.ts'
import { type Role, roles, type SignOff } from '../../shared/board/constants.ts'
import { askRights } from '../../shared/board/rights.ts'
import { helpCalled, requestOf } from '../support/callBuilder.ts'
import type { Order } from '../support/given.ts'
import {
  birdOf,
  clock,
  held,
  onShift,
  person,
  personOf,
  privateRef,
  removed,
} from '../support/roomBuilder.ts'
import {
  ana,
  ben,
  birdsS,
  f1,
  halfHourly,
  inc1,
  inc2,
  lena,
  nestE,
  nestF,
  nestG,
  room,
} from './smallRoom.ts'

/** `always` whatever the shift, `onShift` only then. */
type May = 'always' | 'onShift' | 'never'

const anyone = {
  trainee: 'onShift',
  volunteer: 'onShift',
  lead: 'onShift',
  permitHolder: 'onShift',
  vet: 'onShift',
} as const
const presentOnly = {
  trainee: 'always',
  volunteer: 'always',
  lead: 'always',
  permitHolder: 'always',
  vet: 'always',
} as const
const leads = {
  trainee: 'never',
  volunteer: 'never',
  lead: 'always',
  permitHolder: 'always',
  vet: 'never',
} as const
const permitHolder = { ...leads, lead: 'never' } as const

const expected: Readonly<Record<AskType, Readonly<Record<Role, May>>>> = {
  ClaimNest: anyone,
  GiveBack: anyone,
  MoreTime: anyone,
  DeclineOffer: anyone,
  // Of a call for help; who may answer for fluids is in requestTable.test.ts.
  TakeRequest: anyone,
  DeclineRequest: anyone,
  // Of a call of one's own.
  ResolveRequest: anyone,
  EndShift: anyone,
  BeginBreak: anyone,
  EndBreak: anyone,
  // Nobody is on shift before this one.
  BeginShift: presentOnly,
  SetHold: leads,
  LiftHold: leads,
  ReleaseArrival: leads,
  AddIncubator: leads,
  AdmitBrood: leads,
  OfferNest: leads,
  Acknowledge: leads,
  MoveNest: leads,
  MoveBird: leads,
  SetMentor: leads,
  AddPerson: permitHolder,
  SetSignOffs: permitHolder,
  RemovePerson: permitHolder,
  SetPlan: permitHolder,
  SetRoom: permitHolder,
}

const plan = {
  label: 'every 40 min',
  technique: 'gapeSyringe',
  timing: { type: 'every', intervalMs: 2_400_000 },
  earlyPercent: 10,
  planned: null,
  cap: null,
  source: 'invented for tests',
} as const

const orders: Readonly<Record<AskType, Order>> = {
  ClaimNest: { type: 'ClaimNest', nest: nestF },
  GiveBack: { type: 'GiveBack', nest: nestF, claimNo: 9 },
  MoreTime: { type: 'MoreTime', nest: nestF, claimNo: 9 },
  DeclineOffer: { type: 'DeclineOffer', nest: nestF },
  OfferNest: { type: 'OfferNest', nest: nestF, person: ben },
  TakeRequest: { type: 'TakeRequest', request: requestOf(1) },
  DeclineRequest: { type: 'DeclineRequest', request: requestOf(1) },
  ResolveRequest: { type: 'ResolveRequest', request: requestOf(2) },
  Acknowledge: { type: 'Acknowledge', notice: 1 },
  BeginShift: { type: 'BeginShift' },
  EndShift: { type: 'EndShift' },
  BeginBreak: { type: 'BeginBreak' },
  EndBreak: { type: 'EndBreak' },
  SetHold: {
    type: 'SetHold',
    nest: nestF,
    reason: 'limping',
    lookAgainAtMs: clock('10:00'),
  },
  LiftHold: { type: 'LiftHold', nest: nestG, whyLifted: 'walks well' },
  ReleaseArrival: { type: 'ReleaseArrival', birds: birdsS, plan: halfHourly },
  AddIncubator: { type: 'AddIncubator', label: '3' },
  AdmitBrood: {
    type: 'AdmitBrood',
    label: 'Q',
    incubator: inc1,
    quarantined: false,
    birds: [{ band: 'red', species: 'HOFI', plan: halfHourly }],
  },
  AddPerson: {
    type: 'AddPerson',
    role: 'volunteer',
    signOffs: [],
    private: { name: 'Mara' },
  },
  SetSignOffs: { type: 'SetSignOffs', person: ben, signOffs: ['gapeSyringe'] },
  RemovePerson: { type: 'RemovePerson', person: ben },
  SetPlan: { type: 'SetPlan', plan },
  SetMentor: { type: 'SetMentor', person: ben, mentor: null },
  SetRoom: { type: 'SetRoom', usesStartTap: true },
  MoveNest: { type: 'MoveNest', nest: nestF, incubator: inc2 },
  MoveBird: { type: 'MoveBird', bird: f1, nest: nestE },
}

const somebody = personOf(20)
const isForWantOfARight = (code: string | undefined) =>
  code === 'NotAllowed' || code === 'NotOnShift'

type Walk = { ask: AskType; role: Role; shift: 'on' | 'off'; may: boolean }
const walks: readonly Walk[] = (Object.keys(expected) as AskType[]).flatMap((ask) =>
  roles.flatMap((role) =>
    (['on', 'off'] as const).map((shift) => ({
      ask,
      role,
      shift,
      may:
        expected[ask][role] === 'always' || (expected[ask][role] === 'onShift' && shift === 'on'),
    })),
  ),
)

const leadsHold = held({ nest: nestG }, { by: lena, at: '09:00', lookAgain: '10:00' })
const withSomebody = (role: Role, shift: 'on' | 'off', signOffs: readonly SignOff[] = []) =>
  room.and(
    leadsHold,
    person(somebody, role, signOffs),
    helpCalled({ no: 1, by: ana, at: '09:00' }),
    helpCalled({ no: 2, by: somebody, at: '09:00' }),
    ...(shift === 'on' ? [onShift(somebody, '07:00')] : []),
  )
const ask = { by: somebody, at: '09:10', private: privateRef(20) } as const

describe('who may ask what', () => {
  it('is written down for every ask there is', () => {
    expect(Object.keys(expected).toSorted()).toEqual(Object.keys(askRights).toSorted())
  })

  it.each(Object.values(orders))('holds for $type as a screen may send it', (order) => {
    expect(() => commandSchema.parse({ v: 1, ...order })).not.toThrow()
  })

  it.each(walks)('$ask · $role · $shift shift: $may', ({ ask: type, role, shift, may }) => {
    const { reason } = withSomebody(role, shift).when(orders[type], ask)
    expect(isForWantOfARight(reason?.code)).toBe(!may)
  })

  it.each(Object.keys(orders) as AskType[])('%s is for nobody who was removed', (type) => {
    const gone = withSomebody('permitHolder', 'on').and(removed(somebody))
    expect(gone.when(orders[type], ask).reason).not.toBeNull()
  })

  it('lets somebody signed off for fluids release an arrival, whatever their role', () => {
    withSomebody('volunteer', 'on', ['fluids'])
      .when(orders.ReleaseArrival, ask)
      .includes({ type: 'ArrivalReleased', by: somebody })
  })

  it.each(['gapeSyringe', 'cropTube', 'medicines', 'mentor'] as const)(
    'lets nobody release an arrival for being signed off for %s',
    (signOff) => {
      withSomebody('volunteer', 'on', [signOff])
        .when(orders.ReleaseArrival, ask)
        .refuses({ code: 'NotAllowed' })
    },
  )

  it('is looked at before anything else about the ask', () => {
    const unknownBird = birdOf(999)
    const unknown: Order = { type: 'ReleaseArrival', birds: [unknownBird], plan: halfHourly }
    withSomebody('volunteer', 'on').when(unknown, ask).refuses({ code: 'NotAllowed' })
    withSomebody('volunteer', 'on')
      .when(orders.SetHold, { ...ask, agoMs: 60_000 })
      .refuses({ code: 'NotAllowed' })
  })
})

describe('an ask', () => {
  it('expires after fifteen seconds on the device’s own clock', () => {
    const order = orders.ClaimNest
    room
      .when(order, { by: ana, at: '09:10', agoMs: 15_000 })
      .includes({ type: 'NestClaimed', nest: nestF })
    room.when(order, { by: ana, at: '09:10', agoMs: 15_001 }).refuses({ code: 'Expired' })
  })

  it('withdrawn before it was answered changes nothing', () => {
    room.when({ type: 'Withdrawn' }, { by: ana, at: '09:10' }).refuses({ code: 'Withdrawn' })
  })

  it('puts no name into the facts', () => {
    const turn = withSomebody('permitHolder', 'on').when(orders.AddPerson, ask)
    turn.includes({ type: 'PersonAdded', role: 'volunteer', signOffs: [], name: privateRef(20) })
    expect(JSON.stringify(turn.events)).not.toContain('Mara')
  })
})
