// Somebody may have fed these birds and nobody knows. A doubt is asked of the person who had the nest,
// then warns whoever comes next, and ends by an answer or by itself when it is too old to matter.

import type { BirdId, InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf, withCounter, withNest } from '../board/change.ts'
import type { Command } from '../board/commands.ts'
import { doubtsPerNestMax, ownerOnlyMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Doubt, Nest } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Due, type Events, nextVisit, setAside } from './decision.ts'
import { intervalMs, planOf } from './due.ts'
import { afterOpenMs } from './feedingHours.ts'

export type NewDoubt = {
  readonly no: number
  readonly kind: Doubt['kind']
  readonly owner: PersonId | null
  readonly aboutAtMs: InstantMs
  readonly birds: readonly BirdId[]
  readonly pair?: readonly [number, number]
}

/** Raises a doubt; where the nest already has as many as fit, the oldest ends as never answered. */
export function raised(nest: Nest, doubt: NewDoubt, nowMs: InstantMs): Events {
  const oldest = nest.doubts[0]
  const isKnown = nest.doubts.some((other) => other.no === doubt.no)
  const full = nest.doubts.length >= doubtsPerNestMax && !isKnown && oldest
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
      ...(doubt.pair ? { pair: [...doubt.pair] as [number, number] } : {}),
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
  command: Command & { nest: NestId },
  context: Context,
  aside: { readonly why: EventOf<'ReportSetAside'>['why']; readonly no?: number },
): Events {
  const nest = board.nests[command.nest]
  const birds = birdsOf(board, command.nest).map((bird) => bird.id)
  if (!nest || birds.length === 0) return [setAside(command, context, aside.why)]
  const isOwnerHere = board.people[context.by]?.isRemoved === false
  const doubt = {
    no: aside.no ?? nextVisit(board),
    kind: 'setAside',
    owner: isOwnerHere ? context.by : null,
    aboutAtMs: context.startedAtMs ?? context.notedAtMs,
    birds,
  } as const
  return [setAside(command, context, aside.why, nest.id), ...raised(nest, doubt, context.nowMs)]
}

/**
 * Until this instant only the doubt's owner is asked; from then the next person is warned. Two records
 * too close together have no one to ask, and warn at once.
 */
export const warnsFromMs = (board: Board, doubt: Doubt): InstantMs =>
  doubt.kind === 'twice'
    ? doubt.raisedAtMs
    : Math.max(doubt.raisedAtMs, board.room.openedAtMs) + ownerOnlyMs

/** Birds of this nest that somebody should look at before feeding. */
export function birdsInDoubt(nest: Nest): readonly BirdId[] {
  return nest.doubts.flatMap((doubt) => doubt.birds.filter((bird) => !doubt.looked.includes(bird)))
}

/** From when each doubt is too old to matter: twice the interval of its birds, in feeding hours. */
export function doubtsTooOld(board: Board): readonly Due[] {
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
    pair: event.pair ?? null,
  }
  const raisedBoard = withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: joined(nest.doubts, doubt),
  }))
  return withCounter(raisedBoard, 'visit', event.no)
}

/** One visit is one doubt: what is doubted of it anew joins what was doubted of it before. */
function joined(all: readonly Doubt[], doubt: Doubt): readonly Doubt[] {
  const before = all.find((other) => other.no === doubt.no)
  if (!before) return [...all, doubt]
  const birds = [...new Set([...before.birds, ...doubt.birds])]
  const looked = before.looked.filter((bird) => !doubt.birds.includes(bird))
  return all.map((other) => (other === before ? { ...doubt, birds, looked } : other))
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
    settledTwice: settled(board, nest, event),
  }))

/** A pair somebody looked into, or that grew too old, is not asked about again; one that is gone may be. */
function settled(board: Board, nest: Nest, event: EventOf<'DoubtEnded'>): Nest['settledTwice'] {
  const pair = nest.doubts.find((doubt) => doubt.no === event.no)?.pair
  if (!pair || event.how === 'notTwice') return nest.settledTwice
  // Kept as long as the birds remember both feeds, and so bounded by the feeds they keep.
  const kept = birdsOf(board, nest.id).flatMap((bird) => bird.feeds.map((feed) => feed.no))
  return [...nest.settledTwice.filter((one) => one.every((no) => kept.includes(no))), pair]
}
