// Calls in an invented room's past, as the events that made them: for help, for fluids, for a decision
// on an arrival; and the offers of late nests.

import type { BirdId, NestId, PersonId, RequestId } from '../../shared/base/values.ts'
import { offerMs } from '../../shared/board/constants.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import { type Clock, clock } from './roomBuilder.ts'

export const requestOf = (n: number): RequestId => `r${n}` as RequestId

type Call = { readonly no: number; readonly at: Clock }

export const helpCalled = (call: Call & { by: PersonId; nest?: NestId }): RoomEvent => ({
  ...{ type: 'RequestRaised', v: 1, kind: 'help', why: 'byHand' },
  ...{ request: requestOf(call.no), nest: call.nest ?? null, bird: null, by: call.by },
  atMs: clock(call.at),
})

/** Fluids for a bird that refused twice. */
export const fluidsCalled = (call: Call & { nest: NestId; bird: BirdId }): RoomEvent => ({
  ...{ type: 'RequestRaised', v: 1, kind: 'fluids', why: 'refusedTwice' },
  ...{ request: requestOf(call.no), nest: call.nest, bird: call.bird, by: null },
  atMs: clock(call.at),
})

export const callTaken = (no: number, person: PersonId, at: Clock): RoomEvent => ({
  type: 'RequestTaken',
  v: 1,
  request: requestOf(no),
  person,
  atMs: clock(at),
})

export const offered = (nest: NestId, person: PersonId, at: Clock): RoomEvent => ({
  ...{ type: 'OfferMade', v: 1, nest, person, by: null },
  ...{ atMs: clock(at), endsAtMs: clock(at) + offerMs },
})
