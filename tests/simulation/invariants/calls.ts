// Two refusals fetch somebody, one person takes a call, a count that is short is said, and two records
// too close together are a doubt. All of it worked out here anew, from the pages and not from the rules.

import { secondMs } from '../../../shared/base/values.ts'
import { birdsOf } from '../../../shared/board/change.ts'
import type { Bird, Board, Nest } from '../../../shared/board/state.ts'
import { type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import type { Seen } from '../witness.ts'

export class OneTakesACall implements Invariant {
  readonly number = 'round'
  readonly name = 'a call is taken by one person, who is entitled to, until they put it back'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'RequestTaken') return []
        const request = before.requests[event.request]
        const taker = before.people[event.person]
        if (request === undefined) return [`${event.request} is taken and not open`]
        const isFit = request.kind === 'help' || taker?.signOffs.includes('fluids')
        return [
          ...(request.taken === null
            ? []
            : [`${request.id} is taken from ${request.taken.person}`]),
          ...(isFit ? [] : [`${event.person} takes ${request.id} without the sign-off`]),
        ]
      }),
    )
  }
}

const offered = (bird: Bird) => bird.feeds.filter(({ outcome }) => outcome !== 'notFed')
const requestWaitMs = 15 * secondMs
const seenWithinMs = 5 * secondMs + 100

export class RefusalsFetch implements Invariant {
  readonly number = 'round'
  readonly name = 'a bird that refused two feeds running has somebody fetched for it, once'

  step({ server }: Scene, { happened }: Seen): Sentences {
    const last = happened.at(-1)
    if (last === undefined || server.isWaitingForDisk) return nothingWrong
    const { after, record } = last
    return Object.values(after.birds).flatMap((bird) =>
      isForgotten(after, bird, record.atMs) ? [`nobody is fetched for ${bird.id}`] : [],
    )
  }
}

function isForgotten(board: Board, bird: Bird, nowMs: number): boolean {
  const [last, before] = offered(bird).toReversed()
  if (last?.outcome !== 'refused' || before?.outcome !== 'refused') return false
  const plan = bird.plan === null ? undefined : board.plans[bird.plan]
  if (plan?.technique === 'cropTube' || bird.fetchedForNo >= last.no) return false
  if (Object.values(board.requests).some((one) => one.bird === bird.id)) return false
  const round = board.nests[bird.nest]?.rounds.find(({ no }) => no === last.no)
  const sinceMs = Math.max(round?.recordedAtMs ?? nowMs, board.room.openedAtMs)
  return nowMs - sinceMs > requestWaitMs + seenWithinMs
}

export class ShortCountsAreSaid implements Invariant {
  readonly number = 'round'
  readonly name = 'fewer birds counted back than live in a nest are told of at once'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before, after }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'RoundRecorded' || event.back === undefined) return []
        const nest = before.nests[event.nest]
        const isLater = nest?.rounds.some(
          (round) => round.back !== null && round.startedAtMs > event.startedAtMs,
        )
        const brood = birdsOf(before, event.nest).length
        if (isLater || event.back >= brood || after.nests[event.nest]?.short) return []
        return [`${brood - event.back} birds of ${event.nest} are missing and nobody is told`]
      }),
    )
  }
}

const isFed = (outcome: string) => ['ate', 'some', 'assisted'].includes(outcome)

/** Pairs of records less than half an interval apart, by the numbers of the two. */
function closePairs(board: Board, nest: Nest): readonly string[] {
  const pairs = birdsOf(board, nest.id).flatMap((bird) =>
    bird.feeds.flatMap((a) =>
      bird.feeds
        .filter((b) => b.no > a.no && isFed(a.outcome) && isFed(b.outcome))
        .filter((b) => a.extraAfter !== b.no && b.extraAfter !== a.no)
        .filter(
          (b) => 2 * Math.abs(a.startedAtMs - b.startedAtMs) < Math.min(a.intervalMs, b.intervalMs),
        )
        .map((b) => `${a.no}-${b.no}`),
    ),
  )
  const settled = nest.settledTwice.map(([a, b]) => `${a}-${b}`)
  return [...new Set(pairs)].filter((pair) => !settled.includes(pair)).sort()
}

const doubtsMost = 4

export class TwiceIsSaid implements Invariant {
  readonly number = 'round'
  readonly name = 'the doubts of a nest that seems fed twice are its pairs, worked out anew'

  step(_scene: Scene, { happened }: Seen): Sentences {
    const last = happened.at(-1)
    if (last === undefined) return nothingWrong
    return Object.values(last.after.nests).flatMap((nest) => {
      const told = nest.doubts.flatMap(({ pair }) => (pair ? [pair.join('-')] : [])).sort()
      const pairs = closePairs(last.after, nest)
      // A nest holds four doubts at most; which of many pairs are among them is not promised.
      if (nest.doubts.length === doubtsMost || told.join() === pairs.join()) return []
      return [`${nest.id} tells of the pairs [${told}] and has [${pairs}]`]
    })
  }
}
