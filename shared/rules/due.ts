// When a bird is due, when it may be fed, and how late it is. The patient is one bird: a nest takes the
// earliest due among the birds a person may feed. Pure functions of the board; nothing here is stored.

import {
  type InstantMs,
  type LengthMs,
  minuteMs,
  type NestId,
  type PersonId,
} from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { CarePlan } from '../board/parts.ts'
import type { Bird, Board, Nest } from '../board/state.ts'
import { openMsBetween, today } from './feedingHours.ts'
import { requestOn } from './openRequests.ts'

/** Whether this outcome is a feed: only these move when a bird was last fed. */
export const isFeed = (outcome: Bird['feeds'][number]['outcome']): boolean =>
  outcome === 'ate' || outcome === 'some' || outcome === 'assisted'

/** The latest start among a bird's visits of one kind; 0 where there was none. */
function latest(bird: Bird, kind: keyof Bird['before']): InstantMs {
  let at = bird.before[kind]
  for (const feed of bird.feeds) {
    const isKind =
      kind === 'fedAtMs'
        ? isFeed(feed.outcome)
        : feed.outcome === (kind === 'refusedAtMs' ? 'refused' : 'notFed')
    if (isKind) at = Math.max(at, feed.startedAtMs)
  }
  return at
}

/** When the bird last ate, by the start of that visit; null where it never has here. */
export const lastFedAtMs = (bird: Bird): InstantMs | null => latest(bird, 'fedAtMs') || null

export const planOf = (board: Board, bird: Bird): CarePlan | null =>
  bird.plan === null ? null : (board.plans[bird.plan] ?? null)

/** The plan's clock times around today, as instants in order: yesterday's, today's and tomorrow's. */
function clockTimes(board: Board, minutesOfDay: readonly number[]): readonly InstantMs[] {
  const { opensAtMs, nextOpensAtMs, clockChange } = today(board)
  const before = board.days.at(-2) ?? { opensAtMs: opensAtMs - (nextOpensAtMs - opensAtMs) }
  const days = [before, { opensAtMs, clockChange }, { opensAtMs: nextOpensAtMs }]
  const minutes = [...minutesOfDay].sort((a, b) => a - b)
  return days.flatMap((day) =>
    minutes.map((minute) => {
      const shownMs = day.opensAtMs + (minute - board.room.opensMinute) * minuteMs
      return 'clockChange' in day && day.clockChange ? shifted(shownMs, day.clockChange) : shownMs
    }),
  )
}

/** A clock time after the clocks change comes by so much sooner or later; one they skip, at the change. */
function shifted(shownMs: InstantMs, change: { atMs: InstantMs; byMs: LengthMs }): InstantMs {
  return shownMs < change.atMs ? shownMs : Math.max(change.atMs, shownMs - change.byMs)
}

/**
 * The clock time that follows `sinceMs`, and the gap that leads to it. A feed less than half a gap
 * before a clock time was that clock time's feed, a little early.
 */
function nextClockTime(
  board: Board,
  minutesOfDay: readonly number[],
  sinceMs: InstantMs,
): { readonly atMs: InstantMs; readonly gapMs: LengthMs } {
  const times = clockTimes(board, minutesOfDay)
  for (let at = 1; at < times.length; at += 1) {
    const atMs = times[at] ?? 0
    const gapMs = atMs - (times[at - 1] ?? 0)
    if (atMs - gapMs / 2 > sinceMs) return { atMs, gapMs }
  }
  const last = times.at(-1) ?? sinceMs
  return { atMs: last, gapMs: today(board).nextOpensAtMs - today(board).opensAtMs }
}

/** The interval in force: the plan's, or the gap to the next of its clock times; 0 without a plan. */
export function intervalMs(board: Board, bird: Bird): LengthMs {
  const plan = planOf(board, bird)
  if (!plan) return 0
  if (plan.timing.type === 'every') return plan.timing.intervalMs
  const since = Math.max(latest(bird, 'fedAtMs'), bird.seenFullAtMs, bird.admittedAtMs)
  return nextClockTime(board, plan.timing.minutesOfDay, since).gapMs
}

/**
 * The bird's last feed, where some bird of that visit went hungry and nobody knows which; null once a
 * later look at its crop has told.
 */
export function unsureFeed(bird: Bird): Bird['feeds'][number] | null {
  const last = bird.feeds.findLast((feed) => isFeed(feed.outcome))
  if (!last?.isUnsure) return null
  return Math.max(bird.lookedFullAtMs, bird.seenEmptyAtMs) > last.startedAtMs ? null : last
}

/** When a bird's own doings make it due, and whether it may be fed a little earlier than that. */
type OwnDue = { readonly atMs: InstantMs; readonly mayBeEarly: boolean }

/** Due by what the bird did, before holds and hours are looked at. */
function ownDue(board: Board, bird: Bird, plan: CarePlan): OwnDue {
  const fed = latest(bird, 'fedAtMs')
  const refused = latest(bird, 'refusedAtMs')
  const notFed = latest(bird, 'notFedAtMs')
  const full = Math.max(fed, bird.seenFullAtMs)
  if (bird.seenEmptyAtMs > Math.max(full, refused, notFed, bird.lookedFullAtMs)) {
    return { atMs: bird.seenEmptyAtMs, mayBeEarly: true }
  }
  if (Math.max(refused, notFed) > full) {
    const atMs = Math.max(refused, notFed) + Math.round(intervalMs(board, bird) / 2)
    // Somebody looked and left it alone: it is not on anyone's list before then.
    return { atMs, mayBeEarly: refused > notFed }
  }
  const unsure = unsureFeed(bird)
  if (unsure) {
    // Some bird of the brood went hungry: at half the interval somebody looks for it.
    const atMs = unsure.startedAtMs + Math.round(unsure.intervalMs / 2)
    return { atMs, mayBeEarly: false }
  }
  if (plan.timing.type === 'at') {
    const since = Math.max(full, bird.admittedAtMs)
    return { atMs: nextClockTime(board, plan.timing.minutesOfDay, since).atMs, mayBeEarly: true }
  }
  const atMs = full === 0 ? bird.admittedAtMs : full + plan.timing.intervalMs
  return { atMs, mayBeEarly: true }
}

/** When what the bird did makes it due, whatever holds and hours add; null without a plan. */
export function ownDueAtMs(board: Board, bird: Bird): InstantMs | null {
  const plan = planOf(board, bird)
  return plan ? ownDue(board, bird, plan).atMs : null
}

/** When this bird is due; null while it settles or has no plan. Holds are the caller's to look at. */
export function birdDueAtMs(board: Board, bird: Bird): InstantMs | null {
  const plan = planOf(board, bird)
  if (!plan || bird.standing.type === 'settling') return null
  const nest = board.nests[bird.nest]
  const dueMs = Math.max(
    ownDue(board, bird, plan).atMs,
    bird.holdEndedAtMs,
    nest?.holdEndedAtMs ?? 0,
    bird.standing.atMs,
    today(board).opensAtMs,
  )
  const { closesAtMs, nextOpensAtMs } = today(board)
  return dueMs >= closesAtMs ? Math.max(dueMs, nextOpensAtMs) : dueMs
}

/** From when this bird may be fed: a little before it is due, as far as its plan allows. */
export function birdReadyAtMs(board: Board, bird: Bird): InstantMs | null {
  const dueMs = birdDueAtMs(board, bird)
  const plan = planOf(board, bird)
  if (dueMs === null || !plan) return null
  if (!ownDue(board, bird, plan).mayBeEarly) return dueMs
  return dueMs - Math.round((intervalMs(board, bird) * plan.earlyPercent) / 100)
}

export const isHeld = (nest: Nest, bird: Bird): boolean => nest.hold !== null || bird.hold !== null

/** Released, not held, not waiting for fluids, on a plan, and of a technique this person is signed off for (anyone's if absent). */
export function mayFeed(board: Board, bird: Bird, person?: PersonId): boolean {
  const nest = board.nests[bird.nest]
  const plan = planOf(board, bird)
  if (!nest || !plan || bird.standing.type === 'settling' || isHeld(nest, bird)) return false
  if (requestOn(board, bird)) return false
  return person === undefined || (board.people[person]?.signOffs.includes(plan.technique) ?? false)
}

/** The birds of a nest this person may feed now, in the order they were admitted. */
export function readyBirds(
  board: Board,
  nest: NestId,
  person: PersonId | undefined,
  nowMs: InstantMs,
): readonly Bird[] {
  return birdsOf(board, nest).filter((bird) => {
    const readyMs = birdReadyAtMs(board, bird)
    return readyMs !== null && readyMs <= nowMs && mayFeed(board, bird, person)
  })
}

/** The earliest due among the birds that may be fed (by this person, where one is given). */
export function nestDueAtMs(board: Board, nest: NestId, person?: PersonId): InstantMs | null {
  let earliest: InstantMs | null = null
  for (const bird of birdsOf(board, nest)) {
    if (!mayFeed(board, bird, person)) continue
    const dueMs = birdDueAtMs(board, bird)
    if (dueMs !== null && (earliest === null || dueMs < earliest)) earliest = dueMs
  }
  return earliest
}

/** How late a due time is, in milliseconds of feeding hours; 0 when it is not. */
export const lateMs = (board: Board, dueAtMs: InstantMs, nowMs: InstantMs): LengthMs =>
  openMsBetween(board, dueAtMs, nowMs)
