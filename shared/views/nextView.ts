// The one nest shown to a person with free hands, and why it is that one; or why there is none. Which
// nest comes next is decided by the plan floor alone.

import type { InstantMs, LengthMs, NestId, PersonId } from '../base/values.ts'
import { minuteMs } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Bird, Board, Nest } from '../board/state.ts'
import { nextNest } from '../plan/nextNest.ts'
import { lateMs, nestDueAtMs } from '../rules/due.ts'
import { isMentorAway } from '../rules/mentors.ts'
import { type Hours, hoursAt } from './hours.ts'
import { nameOf, type PublicNames } from './names.ts'
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
  /** A trainee without their mentor; `hasMentor` is false where none was ever named. */
  | { readonly type: 'mentorAway'; readonly hasMentor: boolean; readonly name: string | null }
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

type Shown = {
  readonly person: PersonId
  readonly nowMs: InstantMs
  readonly nest: Nest
  readonly dueAtMs: InstantMs
  readonly birds: readonly Bird[]
  readonly doubts: readonly number[]
}

/** One nest as it is put to somebody: by the plan, or by whoever asks them. */
export function nestShown(board: Board, names: PublicNames, of: Shown): NextNest {
  const { person, nowMs, nest, dueAtMs, birds, doubts } = of
  return {
    type: 'nest',
    summary: nestSummary(board, names, { nest, nowMs }),
    dueAtMs,
    lateMs: lateMs(board, dueAtMs, nowMs),
    why: whyThis(board, { person, nowMs, nest: nest.id, dueAtMs }),
    birds: birds.length,
    species: codesOf(birds),
    plans: planLines(board, birds),
    doubts,
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
  if (isMentorAway(board, person)) {
    const name = nameOf(board, names, actor.mentor)
    return { type: 'mentorAway', hasMentor: actor.mentor !== null, name }
  }
  const next = nextNest(board, person, nowMs)
  const nest = next ? board.nests[next.nest] : undefined
  if (!next || !nest) return nothing(board, person, nowMs)
  const birds = birdsOf(board, nest.id).filter((bird) => next.birds.includes(bird.id))
  return nestShown(board, names, { ...of, nest, dueAtMs: next.dueAtMs, birds, doubts: next.doubts })
}
