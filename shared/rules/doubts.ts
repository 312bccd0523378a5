// Somebody may have fed these birds and nobody knows. A doubt is asked of the person who had the nest,
// then warns whoever comes next, and ends by an answer or by itself when it is too old to matter.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf, withBird, withCounter, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { doubtsPerNestMax, ownerOnlyMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Doubt, Nest } from '../board/state.ts'
import { claimEnded } from './claiming.ts'
import type { Context } from './context.ts'
import {
  type Decision,
  doubtOf,
  type Events,
  happened,
  heldBy,
  nothingNew,
  setAside,
} from './decision.ts'
import { intervalMs, planOf } from './due.ts'
import { afterOpenMs } from './feedingHours.ts'
import { lateRound, recorded } from './rounds.ts'

export type NewDoubt = {
  readonly no: number
  readonly kind: Doubt['kind']
  readonly owner: PersonId | null
  readonly aboutAtMs: InstantMs
  readonly birds: readonly BirdId[]
}

/** Raises a doubt; where the nest already has as many as fit, the oldest ends as never answered. */
export function raised(nest: Nest, doubt: NewDoubt, nowMs: InstantMs): Events {
  const oldest = nest.doubts[0]
  const full = nest.doubts.length >= doubtsPerNestMax && oldest
  return [
    ...(full ? [doubtEnded(nest.id, oldest.no, 'neverAnswered')] : []),
    {
      type: 'DoubtRaised',
      v: 1,
      nest: nest.id,
      no: doubt.no,
      kind: doubt.kind,
      owner: doubt.owner,
      aboutAtMs: doubt.aboutAtMs,
      raisedAtMs: nowMs,
      birds: [...doubt.birds],
    },
  ]
}

export const doubtEnded = (
  nest: NestId,
  no: number,
  how: EventOf<'DoubtEnded'>['how'],
  said?: EventOf<'DoubtEnded'>['said'],
): EventOf<'DoubtEnded'> => ({
  type: 'DoubtEnded',
  v: 1,
  nest,
  no,
  how,
  ...(said ? { said } : {}),
})

/** A report that could not be applied is kept, and its nest is to be looked at before it is fed. */
export function asideWithDoubt(
  board: Board,
  command: Parameters<typeof setAside>[0] & { nest: NestId },
  context: Context,
  why: Parameters<typeof setAside>[2],
): Decision {
  const nest = board.nests[command.nest]
  const birds = birdsOf(board, command.nest).map((bird) => bird.id)
  if (!nest || birds.length === 0) return happened(setAside(command, context, why))
  const isOwnerHere = board.people[context.by]?.isRemoved === false
  return happened(
    setAside(command, context, why, nest.id),
    ...raised(
      nest,
      {
        no: board.counters.visit + 1,
        kind: 'setAside',
        owner: isOwnerHere ? context.by : null,
        aboutAtMs: context.startedAtMs ?? context.notedAtMs,
        birds,
      },
      context.nowMs,
    ),
  )
}

/** Until this instant only the doubt's owner is asked; from then the next person is warned. */
export const warnsFromMs = (board: Board, doubt: Doubt): InstantMs =>
  Math.max(doubt.raisedAtMs, board.room.openedAtMs) + ownerOnlyMs

/** Birds of this nest that somebody should look at before feeding. */
export function birdsInDoubt(nest: Nest): readonly BirdId[] {
  return nest.doubts.flatMap((doubt) => doubt.birds.filter((bird) => !doubt.looked.includes(bird)))
}

export function decideSayWhatHappened(
  board: Board,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const doubt = doubtOf(nest, command.claimNo)
  if (doubt) return settle(board, nest, doubt, command, context)
  const held = heldBy(nest)
  if (held?.claimNo === command.claimNo) return closeClaim(board, nest, command, context)
  const isKnown = nest.rounds.some((round) => round.no === command.claimNo)
  if (isKnown || command.said.type === 'none') return nothingNew
  return asideWithDoubt(board, command, context, 'roundUnknown')
}

function saidBirds(
  among: readonly BirdId[],
  said: CommandOf<'SayWhatHappened'>['said'],
): readonly BirdId[] {
  if (said.type === 'all') return among
  if (said.type === 'none') return []
  return among.filter((bird) => said.birds.includes(bird))
}

function settle(
  board: Board,
  nest: Nest,
  doubt: Doubt,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Decision {
  const fed = saidBirds(doubt.birds, command.said)
  return happened(
    ...(fed.length > 0
      ? lateRound(board, nest, context, {
          no: doubt.no,
          standing: 'late',
          startedAtMs: doubt.aboutAtMs,
          isSaid: true,
          answers: fed.map((bird) => ({ bird, outcome: 'ate' as const })),
        })
      : []),
    doubtEnded(nest.id, doubt.no, 'said', command.said.type),
  )
}

function closeClaim(
  board: Board,
  nest: Nest,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Decision {
  const held = heldBy(nest)
  if (!held) return nothingNew
  const open = held.birds.filter((bird) => !held.answered.includes(bird))
  const fed = saidBirds(open, command.said)
  const how =
    fed.length === open.length ? 'fed' : fed.length + held.answered.length > 0 ? 'partly' : 'notFed'
  return happened(
    ...(fed.length > 0
      ? [
          recorded(board, nest, context, {
            no: held.claimNo,
            standing: 'current',
            startedAtMs: held.startedAtMs,
            isSaid: true,
            answers: fed.map((bird) => ({ bird, outcome: 'ate' as const })),
          }),
        ]
      : []),
    claimEnded(nest.id, held.claimNo, how, context.nowMs),
  )
}

export function decideLooked(
  board: Board,
  command: CommandOf<'Looked'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const isHere = (bird: BirdId) => board.birds[bird]?.nest === nest.id
  const looks = command.looks.filter((look) => isHere(look.bird))
  if (looks.length === 0) return asideWithDoubt(board, command, context, 'birdUnknown')
  return happened({
    type: 'BirdsLooked',
    v: 1,
    nest: nest.id,
    by: context.by,
    atMs: context.notedAtMs,
    looks: looks.map((look) =>
      look.crop === 'full'
        ? { ...look, fullSinceMs: latestDoubtMs(nest, look.bird) ?? context.notedAtMs }
        : look,
    ),
  })
}

/** The latest time at which this bird may have been fed; null where nobody doubts it. */
function latestDoubtMs(nest: Nest, bird: BirdId): InstantMs | null {
  const times = nest.doubts
    .filter((doubt) => doubt.birds.includes(bird))
    .map((doubt) => doubt.aboutAtMs)
  return times.length > 0 ? Math.max(...times) : null
}

/** From when each doubt is too old to matter: twice the interval of its birds, in feeding hours. */
export function doubtsTooOld(board: Board): readonly { atMs: InstantMs; events: () => Events }[] {
  return Object.values(board.nests).flatMap((nest) =>
    nest.doubts.flatMap((doubt) => {
      const atMs = afterOpenMs(board, doubt.raisedAtMs, 2 * longestIntervalMs(board, doubt))
      return atMs === null
        ? []
        : [{ atMs, events: () => [doubtEnded(nest.id, doubt.no, 'neverAnswered')] }]
    }),
  )
}

// A brood still settling has no interval yet; its doubt then lasts as long as the slowest plan's.
const slowestMs = 4 * 3_600_000

function longestIntervalMs(board: Board, doubt: Doubt): number {
  const intervals = doubt.birds.map((id) => {
    const bird = board.birds[id]
    return bird && planOf(board, bird) ? intervalMs(board, bird) : slowestMs
  })
  return Math.max(...intervals)
}

export function evolveDoubtRaised(board: Board, event: EventOf<'DoubtRaised'>): Board {
  const doubt: Doubt = {
    no: event.no,
    kind: event.kind,
    owner: event.owner,
    aboutAtMs: event.aboutAtMs,
    raisedAtMs: event.raisedAtMs,
    birds: event.birds,
    looked: [],
  }
  const raisedBoard = withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: [...nest.doubts, doubt],
  }))
  return withCounter(raisedBoard, 'visit', event.no)
}

export const evolveDoubtShrunk = (board: Board, event: EventOf<'DoubtShrunk'>): Board =>
  withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: nest.doubts.map((doubt) =>
      doubt.no === event.no ? { ...doubt, birds: event.birds } : doubt,
    ),
  }))

export const evolveDoubtEnded = (board: Board, event: EventOf<'DoubtEnded'>): Board =>
  withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: nest.doubts.filter((doubt) => doubt.no !== event.no),
  }))

export function evolveLooked(board: Board, event: EventOf<'BirdsLooked'>): Board {
  const seen = event.looks.map((look) => look.bird)
  const warned = withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: nest.doubts.map((doubt) => ({
      ...doubt,
      looked: [...new Set([...doubt.looked, ...doubt.birds.filter((bird) => seen.includes(bird))])],
    })),
  }))
  return event.looks.reduce(
    (changed, look) =>
      withBird(changed, look.bird, (bird) => {
        if (look.crop === 'empty') {
          return { ...bird, seenEmptyAtMs: Math.max(bird.seenEmptyAtMs, event.atMs) }
        }
        const fullSince = look.fullSinceMs ?? 0
        return { ...bird, seenFullAtMs: Math.max(bird.seenFullAtMs, fullSince) }
      }),
    warned,
  )
}
