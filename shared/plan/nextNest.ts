// Which nest next, for one person: the one function that orders nests. Today first due first, with each
// plan's early window and, at the same minute, the incubator this person is already at.

import {
  type BirdId,
  type InstantMs,
  minuteMs,
  type NestId,
  type PersonId,
} from '../base/values.ts'
import type { Board, Nest } from '../board/state.ts'
import { birdsInDoubt, warnsFromMs } from '../rules/doubts.ts'
import { birdDueAtMs, readyBirds } from '../rules/due.ts'
import { isOpen } from '../rules/feedingHours.ts'
import { isMentorAway } from '../rules/mentors.ts'

export type NextNest = {
  readonly nest: NestId
  readonly dueAtMs: InstantMs
  readonly birds: readonly BirdId[]
  /** Numbers of the doubts to be shown before anyone feeds here. */
  readonly doubts: readonly number[]
}

/** The nest to show this person, or null when none is ready for them or the room is closed. */
export function nextNest(board: Board, person: PersonId, nowMs: InstantMs): NextNest | null {
  if (!isOpen(board, nowMs) || isMentorAway(board, person)) return null
  const lastIncubator = incubatorOf(board, person)
  let best: { readonly next: NextNest; readonly rank: readonly (number | string)[] } | null = null
  for (const nest of Object.values(board.nests)) {
    const next = candidate(board, nest, person, nowMs)
    if (!next) continue
    const rank = [
      // Somebody else is being asked for it right now; two people at one door help nobody.
      nest.offer && nest.offer.person !== person ? 1 : 0,
      Math.floor(next.dueAtMs / minuteMs),
      nest.isQuarantined ? 1 : 0,
      nest.incubator === lastIncubator ? 0 : 1,
      nest.label,
    ]
    if (best === null || isBefore(rank, best.rank)) best = { next, rank }
  }
  return best?.next ?? null
}

function candidate(board: Board, nest: Nest, person: PersonId, nowMs: InstantMs): NextNest | null {
  if (nest.hands.type === 'held' || nest.hold) return null
  // A doubt's owner is asked first, and for a minute nobody else is sent to look.
  const isAsked = nest.doubts.some(
    (doubt) => doubt.owner === person || warnsFromMs(board, doubt) > nowMs,
  )
  if (isAsked) return null
  const birds = readyBirds(board, nest.id, person, nowMs)
  const dues = birds.flatMap((bird) => birdDueAtMs(board, bird) ?? [])
  if (dues.length === 0) return null
  const unseen = birdsInDoubt(nest)
  return {
    nest: nest.id,
    dueAtMs: Math.min(...dues),
    birds: birds.map((bird) => bird.id),
    doubts: nest.doubts
      .filter((doubt) => doubt.birds.some((bird) => unseen.includes(bird)))
      .map((doubt) => doubt.no),
  }
}

/** The incubator this person last fed at; null before their first record. */
function incubatorOf(board: Board, person: PersonId): Nest['incubator'] | null {
  let last: { readonly atMs: InstantMs; readonly incubator: Nest['incubator'] } | null = null
  for (const nest of Object.values(board.nests)) {
    for (const round of nest.rounds) {
      if (round.person !== person || (last && last.atMs >= round.recordedAtMs)) continue
      last = { atMs: round.recordedAtMs, incubator: nest.incubator }
    }
  }
  return last?.incubator ?? null
}

function isBefore(a: readonly (number | string)[], b: readonly (number | string)[]): boolean {
  for (const [at, value] of a.entries()) {
    const other = b[at] ?? value
    if (value !== other) return value < other
  }
  return false
}
