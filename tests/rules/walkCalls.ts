// What a step of a walk says of offers, calls, notices, mentors and moves: who speaks of which nest, and
// the order in full. The round itself is in walkOrders.ts.

import type { NestId, PersonId, RequestId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import { requestOf } from '../support/callBuilder.ts'
import { everyone, inc1, inc2 } from './smallRoom.ts'
import type { Aim, Maker } from './walkSaid.ts'
import type { Kind, Step } from './walkSteps.ts'

const chosen = <T>(from: readonly T[], pick: number): T => from[pick % from.length] as T

const requestsOf = (board: Board): readonly RequestId[] =>
  Object.values(board.requests).map(({ id }) => id)
const requestMeant = (board: Board, step: Step): RequestId =>
  step.isAimed && requestsOf(board).length > 0
    ? chosen(requestsOf(board), step.pick)
    : requestOf(1 + (step.pick % 9))

const calls = {
  DeclineOffer: ({ nest }) => ({ type: 'DeclineOffer', nest }),
  OfferNest: ({ nest, step }) => ({
    type: 'OfferNest',
    nest,
    person: chosen(everyone, step.pick),
  }),
  TakeRequest: ({ board, step }) => ({ type: 'TakeRequest', request: requestMeant(board, step) }),
  DeclineRequest: ({ board, step }) => ({
    type: 'DeclineRequest',
    request: requestMeant(board, step),
  }),
  ResolveRequest: ({ board, step }) => ({
    type: 'ResolveRequest',
    request: requestMeant(board, step),
  }),
  Acknowledge: ({ board, step }) => ({
    type: 'Acknowledge',
    notice: board.notices.at(step.pick % 3)?.no ?? 1,
  }),
  CallHelp: ({ nest, isEven }) => ({ type: 'CallHelp', ...(isEven ? { nest } : {}) }),
  BirdFound: ({ nest }) => ({ type: 'BirdFound', nest }),
} as const satisfies Partial<Record<Kind, Maker>>

/** The lead's part: who works beside whom, and where broods and birds are. */
const leading = {
  SetMentor: ({ step, isEven }) => ({
    type: 'SetMentor',
    person: chosen(everyone.slice(5), step.pick),
    mentor: isEven ? chosen(everyone, step.nest) : null,
  }),
  SetRoom: ({ isEven }) => ({ type: 'SetRoom', usesStartTap: isEven }),
  MoveNest: ({ nest, isEven }) => ({ type: 'MoveNest', nest, incubator: isEven ? inc1 : inc2 }),
  MoveBird: ({ board, bird, step }) => ({
    type: 'MoveBird',
    bird,
    nest: chosen(Object.keys(board.nests) as NestId[], step.pick),
    ...(step.pick % 3 === 0 ? ({ isQuarantineDecided: true } as const) : {}),
  }),
} as const satisfies Partial<Record<Kind, Maker>>

export const callMakers = { ...calls, ...leading }

/** Who says it about which nest, where the step is aimed; null where anybody may, about any. */
export function callAim(board: Board, step: Step): Aim | null {
  if (step.kind === 'DeclineOffer') {
    const asked = Object.values(board.nests).flatMap(({ id, offer }) =>
      offer ? [{ by: offer.person, where: id }] : [],
    )
    return asked.length > 0 ? chosen(asked, step.nest) : null
  }
  const speaker = speakerOf(board, step)
  const where = chosen(Object.values(board.nests), step.nest).id
  return speaker ? { by: speaker, where } : null
}

const trained = (board: Board): readonly PersonId[] =>
  everyone.filter((id) => board.people[id]?.signOffs.includes('fluids'))

/** Mostly somebody who may: a call's taker resolves it, a lead reads notices and moves birds. */
function speakerOf(board: Board, step: Step): PersonId | null {
  if (step.kind === 'TakeRequest' && trained(board).length > 0) {
    return chosen(trained(board), step.who)
  }
  if (step.kind === 'ResolveRequest' || step.kind === 'DeclineRequest') {
    return board.requests[requestMeant(board, step)]?.taken?.person ?? null
  }
  if (step.kind === 'SetRoom') return chosen(everyone.slice(4, 5), 0)
  return step.kind in leading || step.kind === 'OfferNest' || step.kind === 'Acknowledge'
    ? chosen(everyone.slice(3, 5), step.who)
    : null
}
