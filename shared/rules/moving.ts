// A brood to another incubator, a bird to another nest. Feeds stand with the bird and go with it, and so
// does whatever is doubted of it. Nothing that somebody has in hand is moved out of their hands.

import type { BirdId, IncubatorId, NestId } from '../base/values.ts'
import { birdsOf, withBird, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { birdsPerNestMax, doubtsPerNestMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Bird, Board, Doubt } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, type Events, happened, heldBy, nothingNew, refuse } from './decision.ts'
import { doubtEnded } from './doubts.ts'
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
  return happened(...pushedOut(board, bird, command.nest), { type: 'BirdMoved', v: 1, ...at })
}

/** The oldest doubts of the nest it comes to, where those it brings along do not fit beside them. */
function pushedOut(board: Board, bird: Bird, to: NestId): Events {
  const there = board.nests[to]?.doubts ?? []
  const brought = (board.nests[bird.nest]?.doubts ?? []).filter(
    (doubt) => doubt.birds.includes(bird.id) && !there.some((other) => other.no === doubt.no),
  )
  const tooMany = Math.max(0, there.length + brought.length - doubtsPerNestMax)
  return there.slice(0, tooMany).map((doubt) => doubtEnded(to, doubt.no, 'neverAnswered'))
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
  if (birdsOf(board, to).length >= birdsPerNestMax) return { code: 'BoardFull', what: 'birds' }
  const isTaken = birdsOf(board, to).some(
    (other) => other.band !== null && other.band === bird.band,
  )
  if (isTaken) return { code: 'BandTaken' }
  const isSameRule = from.isQuarantined === target.isQuarantined
  return isSameRule || isQuarantineDecided ? null : { code: 'QuarantineDiffers' }
}

export const evolveNestMoved = (board: Board, event: EventOf<'NestMoved'>): Board =>
  withNest(board, event.nest, (nest) => ({ ...nest, incubator: event.incubator }))

/** These doubts with one brought along for this bird; under a number they have already, it joins that one. */
function withDoubtOf(all: readonly Doubt[], doubt: Doubt, bird: BirdId): readonly Doubt[] {
  const looked = doubt.looked.filter((other) => other === bird)
  if (!all.some((other) => other.no === doubt.no))
    return [...all, { ...doubt, birds: [bird], looked }]
  return all.map((other) =>
    other.no === doubt.no
      ? { ...other, birds: [...other.birds, bird], looked: [...other.looked, ...looked] }
      : other,
  )
}

/** The bird, every doubt of it, which keeps its number in both nests, and whoever is called for it. */
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
  const moved = withCallsOf(
    withBird(left, event.bird, (bird) => ({ ...bird, nest: event.nest })),
    event,
  )
  return withNest(moved, event.nest, (nest) => ({
    ...nest,
    doubts: old.doubts
      .filter(isOf)
      .reduce((all, doubt) => withDoubtOf(all, doubt, event.bird), nest.doubts),
    settledTwice: [...nest.settledTwice, ...old.settledTwice],
  }))
}

/** The open calls for this bird send people to where it is now. */
function withCallsOf(board: Board, { bird, nest }: EventOf<'BirdMoved'>): Board {
  const calls = Object.values(board.requests).filter((request) => request.bird === bird)
  if (calls.length === 0) return board
  const requests = { ...board.requests }
  for (const call of calls) requests[call.id] = { ...call, nest }
  return { ...board, requests }
}
