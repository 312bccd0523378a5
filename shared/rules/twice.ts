// The same bird in two records less than half its interval apart, neither given as an extra feed: it
// seems fed twice, and somebody is to look before the next feed. Worked out anew after every report on
// the nest, so the order in which records arrive makes no difference.

import type { BirdId, InstantMs, NestId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { RoomEvent } from '../board/events.ts'
import type { Board, Doubt, Feed, Nest } from '../board/state.ts'
import { type Decision, type Events, happened, nextVisit } from './decision.ts'
import { doubtEnded, raised } from './doubts.ts'
import { isFeed } from './due.ts'
import { foldEvents } from './evolve.ts'

export type TwicePair = {
  readonly pair: readonly [number, number]
  readonly birds: readonly BirdId[]
  /** The later of the two starts. */
  readonly aboutAtMs: InstantMs
}

const isTooClose = (a: Feed, b: Feed): boolean =>
  Math.abs(a.startedAtMs - b.startedAtMs) < Math.min(a.intervalMs, b.intervalMs) / 2 &&
  a.extraAfter !== b.no &&
  b.extraAfter !== a.no

/** Every pair of records of this nest that lie too close, with the birds that are in both. */
export function twicePairs(board: Board, nest: NestId): readonly TwicePair[] {
  const pairs = new Map<string, TwicePair>()
  for (const bird of birdsOf(board, nest)) {
    const feeds = bird.feeds.filter((feed) => isFeed(feed.outcome))
    for (const [at, a] of feeds.entries()) {
      for (const b of feeds.slice(at + 1).filter((other) => isTooClose(a, other))) {
        const pair = [Math.min(a.no, b.no), Math.max(a.no, b.no)] as const
        const birds = [...(pairs.get(pair.join())?.birds ?? []), bird.id]
        const aboutAtMs = Math.max(a.startedAtMs, b.startedAtMs)
        pairs.set(pair.join(), { pair, birds, aboutAtMs })
      }
    }
  }
  return [...pairs.values()]
}

const isPair = (a: readonly [number, number], b: readonly [number, number]): boolean =>
  a[0] === b[0] && a[1] === b[1]

/** The pairs nobody has looked into yet. */
export const openPairs = (board: Board, nest: Nest): readonly TwicePair[] =>
  twicePairs(board, nest.id).filter(
    ({ pair }) => !nest.settledTwice.some((settled) => isPair(settled, pair)),
  )

const doubtOfPair = (nest: Nest, pair: readonly [number, number]): Doubt | undefined =>
  nest.doubts.find((doubt) => doubt.pair && isPair(doubt.pair, pair))

/** What brings this nest's doubts into step with its pairs: gone ones ended, new ones raised. */
function twiceEvents(board: Board, id: NestId, nowMs: InstantMs): Events {
  const nest = board.nests[id]
  if (!nest) return []
  const pairs = openPairs(board, nest)
  const events: RoomEvent[] = nest.doubts.flatMap((doubt) => inStep(id, doubt, pairs))
  for (const { pair, birds, aboutAtMs } of pairs) {
    // Each is raised on the board the one before it leaves: a nest holds only so many doubts.
    const now = foldEvents(board, events)
    const left = now.nests[id] ?? nest
    if (doubtOfPair(left, pair) || left.settledTwice.some((one) => isPair(one, pair))) continue
    const doubt = { kind: 'twice', owner: null, aboutAtMs, birds, pair } as const
    events.push(...raised(left, { no: nextVisit(now), ...doubt }, nowMs))
  }
  return events
}

/** What becomes of a doubt whose pair is gone, or has other birds in both of its records than before. */
function inStep(nest: NestId, doubt: Doubt, pairs: readonly TwicePair[]): Events {
  if (!doubt.pair) return []
  const pair = doubt.pair
  const now = pairs.find((one) => isPair(one.pair, pair))
  const isGrown = now?.birds.some((bird) => !doubt.birds.includes(bird))
  if (!now || isGrown) return [doubtEnded(nest, doubt.no, 'notTwice')]
  if (now.birds.length === doubt.birds.length) return []
  return now.birds.every((bird) => doubt.looked.includes(bird))
    ? [doubtEnded(nest, doubt.no, 'looked')]
    : [{ type: 'DoubtShrunk', v: 1, nest, no: doubt.no, birds: [...now.birds] }]
}

/** Kinds of events after which a nest's pairs may be others than before. */
const changing: ReadonlySet<string> = new Set([
  'RoundRecorded',
  'RoundCorrected',
  'RoundMoved',
  'RoundTakenBack',
  'BirdMoved',
])

/** A decision, and after it whatever brings the doubts of its nests into step with their pairs. */
export function inStepWithTwice(board: Board, decision: Decision, nowMs: InstantMs): Decision {
  if (!decision.ok || !decision.value.some((event) => changing.has(event.type))) return decision
  let after = foldEvents(board, decision.value)
  const changed = Object.values(after.nests).filter(
    (nest) =>
      nest !== board.nests[nest.id] ||
      birdsOf(after, nest.id).some((bird) => bird !== board.birds[bird.id]),
  )
  const more = changed.flatMap((nest) => {
    const events = twiceEvents(after, nest.id, nowMs)
    after = foldEvents(after, events)
    return events
  })
  return happened(...decision.value, ...more)
}
