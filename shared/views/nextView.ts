// The one nest shown to a person with free hands, and why it is that one; or why there is none. Which
// nest comes next is decided by the plan floor alone.

import type { InstantMs, LengthMs, NestId, PersonId } from '../base/values.ts'
import { minuteMs } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Bird, Board, Nest } from '../board/state.ts'
import { nextNest } from '../plan/nextNest.ts'
import { lateMs, nestDueAtMs } from '../rules/due.ts'
import { type Hours, hoursAt } from './hours.ts'
import type { PublicNames } from './names.ts'
import { type NestSummary, nestSummary } from './nestState.ts'
import { type PlanLine, planLines } from './planLine.ts'

/** `latest`: nothing this person may feed is later; `window`: not due yet, but it may be fed. */
export type WhyThisOne = 'latest' | 'late' | 'due' | 'window'

export type NextNest = {
  readonly type: 'nest'
  readonly summary: NestSummary
  readonly dueAtMs: InstantMs
  readonly lateMs: LengthMs
  readonly why: WhyThisOne
  readonly birds: number
  /** Four-letter species codes of the ready birds, each once. */
  readonly species: readonly string[]
  readonly plans: readonly PlanLine[]
  /** Doubts to be shown before the nest is claimed. */
  readonly doubts: readonly number[]
}

export type NextView =
  | { readonly type: 'offShift' }
  | { readonly type: 'onBreak'; readonly backAtMs: InstantMs | null }
  | NextNest
  /** Nothing may be fed now; `nextAtMs` is when this person's first nest falls due. */
  | {
      readonly type: 'nothing'
      readonly hours: Hours
      readonly nextAtMs: InstantMs | null
      readonly nextLabel: string | null
    }

const isFree = (nest: Nest): boolean => nest.hands.type === 'free'

/** Free nests this person may feed with when they are due, the first due first. */
function dueForPerson(board: Board, person: PersonId) {
  return Object.values(board.nests)
    .filter(isFree)
    .flatMap((nest) => {
      const dueAtMs = nestDueAtMs(board, nest.id, person)
      return dueAtMs === null ? [] : [{ nest, dueAtMs }]
    })
    .sort((a, b) => a.dueAtMs - b.dueAtMs)
}

function whyThis(
  board: Board,
  of: { person: PersonId; nowMs: InstantMs; nest: NestId; dueAtMs: InstantMs },
): WhyThisOne {
  if (of.dueAtMs > of.nowMs) return 'window'
  if (lateMs(board, of.dueAtMs, of.nowMs) < minuteMs) return 'due'
  return dueForPerson(board, of.person)[0]?.nest.id === of.nest ? 'latest' : 'late'
}

const codesOf = (birds: readonly Bird[]): readonly string[] => [
  ...new Set(birds.flatMap((bird) => bird.species ?? [])),
]

function nothing(board: Board, person: PersonId, nowMs: InstantMs): NextView {
  const next = dueForPerson(board, person).find(({ dueAtMs }) => dueAtMs > nowMs)
  return {
    type: 'nothing',
    hours: hoursAt(board, nowMs),
    nextAtMs: next?.dueAtMs ?? null,
    nextLabel: next?.nest.label ?? null,
  }
}

/** What to show a person with nothing in hand at `nowMs`. */
export function nextView(
  board: Board,
  names: PublicNames,
  of: { readonly person: PersonId; readonly nowMs: InstantMs },
): NextView {
  const { person, nowMs } = of
  const actor = board.people[person]
  if (!actor || actor.isRemoved || actor.shift === 'off') return { type: 'offShift' }
  if (actor.shift === 'break') return { type: 'onBreak', backAtMs: actor.backAtMs }
  const next = nextNest(board, person, nowMs)
  const nest = next ? board.nests[next.nest] : undefined
  if (!next || !nest) return nothing(board, person, nowMs)
  const ready = birdsOf(board, nest.id).filter((bird) => next.birds.includes(bird.id))
  return {
    type: 'nest',
    summary: nestSummary(board, names, { nest, nowMs }),
    dueAtMs: next.dueAtMs,
    lateMs: lateMs(board, next.dueAtMs, nowMs),
    why: whyThis(board, { person, nowMs, nest: nest.id, dueAtMs: next.dueAtMs }),
    birds: ready.length,
    species: codesOf(ready),
    plans: planLines(board, ready),
    doubts: next.doubts,
  }
}
