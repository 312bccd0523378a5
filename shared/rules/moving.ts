// A brood to another incubator, a bird to another nest. Feeds stand with the bird and go with it, and so
// does whatever is doubted of it. Nothing that somebody has in hand is moved out of their hands.

import type { IncubatorId, NestId } from '../base/values.ts'
import { birdsOf, withBird, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { doubtsPerNestMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Bird, Board, Doubt } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, happened, heldBy, nothingNew, refuse } from './decision.ts'
import type { Rejection } from './rejection.ts'

export function decideMoveNest(
  board: Board,
  command: CommandOf<'MoveNest'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  const incubator: IncubatorId = command.incubator
  if (!board.incubators[incubator]) return refuse({ code: 'IncubatorUnknown', incubator })
  if (nest.incubator === incubator) return nothingNew
  const held = heldBy(nest)
  if (held) return refuse({ code: 'NestInHands', nest: nest.id, person: held.person })
  const at = { nest: nest.id, incubator, by: context.by, atMs: context.nowMs }
  return happened({ type: 'NestMoved', v: 1, ...at })
}

export function decideMoveBird(
  board: Board,
  command: CommandOf<'MoveBird'>,
  context: Context,
): Decision {
  const bird = board.birds[command.bird]
  if (!bird) return refuse({ code: 'BirdUnknown', bird: command.bird })
  if (bird.nest === command.nest) return nothingNew
  const why = whyNotMove(board, bird, command)
  if (why) return refuse(why)
  const at = { bird: bird.id, nest: command.nest, by: context.by, atMs: context.nowMs }
  return happened({ type: 'BirdMoved', v: 1, ...at })
}

function whyNotMove(
  board: Board,
  bird: Bird,
  { nest: to, isQuarantineDecided }: CommandOf<'MoveBird'>,
): Rejection | null {
  const from = board.nests[bird.nest]
  const target = board.nests[to]
  if (!from || !target) return { code: 'NestUnknown' }
  const held = heldBy(from)
  if (held) return { code: 'NestInHands', nest: from.id, person: held.person }
  if (birdsOf(board, from.id).length === 1) return { code: 'LastBird' }
  const isTaken = birdsOf(board, to).some(
    (other) => other.band !== null && other.band === bird.band,
  )
  if (isTaken) return { code: 'BandTaken' }
  const isSameRule = from.isQuarantined === target.isQuarantined
  return isSameRule || isQuarantineDecided ? null : { code: 'QuarantineDiffers' }
}

export const evolveNestMoved = (board: Board, event: EventOf<'NestMoved'>): Board =>
  withNest(board, event.nest, (nest) => ({ ...nest, incubator: event.incubator }))

/** The bird and every doubt of it, which keeps its number in both nests. */
export function evolveBirdMoved(board: Board, event: EventOf<'BirdMoved'>): Board {
  const from = board.birds[event.bird]?.nest
  const old = from ? board.nests[from] : undefined
  if (!old) return board
  const isOf = (doubt: Doubt) => doubt.birds.includes(event.bird)
  const left = withNest(board, old.id, (nest) => ({
    ...nest,
    doubts: nest.doubts.flatMap((doubt) => {
      const birds = doubt.birds.filter((bird) => bird !== event.bird)
      return birds.length === 0 ? [] : [isOf(doubt) ? { ...doubt, birds } : doubt]
    }),
  }))
  const moved = withBird(left, event.bird, (bird) => ({ ...bird, nest: event.nest as NestId }))
  return withNest(moved, event.nest, (nest) => ({
    ...nest,
    doubts: [
      ...nest.doubts,
      ...old.doubts.filter(isOf).map((doubt) => ({ ...doubt, birds: [event.bird] })),
    ].slice(-doubtsPerNestMax),
    settledTwice: [...nest.settledTwice, ...old.settledTwice],
  }))
}
