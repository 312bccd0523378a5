// What one nest shows to anybody in the room: one state, and beside it whether somebody may have fed
// it already. Read by the wall and by the handheld's list. Data only, no sentences.

import type { IncubatorId, InstantMs, LengthMs, NestId, PersonId } from '../base/values.ts'
import { minuteMs } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Bird, Board, Doubt, Held, Nest } from '../board/state.ts'
import { warnsFromMs } from '../rules/doubts.ts'
import { isHeld, lateMs, nestDueAtMs, readyBirds } from '../rules/due.ts'
import { lookAgainStanding } from '../rules/holds.ts'
import { hoursAt } from './hours.ts'
import { nameOf, type PublicNames } from './names.ts'

export type NestState =
  | {
      readonly type: 'claimed'
      readonly person: PersonId
      readonly name: string | null
      readonly sinceMs: InstantMs
      readonly stop: Held['stop']
    }
  | {
      readonly type: 'held'
      readonly reason: string
      readonly lookAgainAtMs: InstantMs
      /** A hold never lifts by itself: when its time has come somebody is asked to look. */
      readonly lookAgain: ReturnType<typeof lookAgainStanding>
    }
  | { readonly type: 'settling'; readonly lookDueAtMs: InstantMs }
  /** Late by a minute or more of feeding hours. */
  | { readonly type: 'late'; readonly dueAtMs: InstantMs; readonly lateMs: LengthMs }
  | { readonly type: 'due'; readonly dueAtMs: InstantMs }
  /** Not due, but inside the part of its interval in which it may be fed. */
  | { readonly type: 'soon'; readonly dueAtMs: InstantMs }
  | { readonly type: 'later'; readonly dueAtMs: InstantMs }
  /** No bird in it has a plan yet. */
  | { readonly type: 'unplanned' }

/** Somebody may have fed it: look first. `isAsking` while only its owner is asked. */
export type NestDoubt = {
  readonly no: number
  readonly owner: PersonId | null
  readonly name: string | null
  readonly aboutAtMs: InstantMs
  readonly isAsking: boolean
}

export type NestSummary = {
  readonly nest: NestId
  readonly label: string
  readonly incubator: IncubatorId
  readonly incubatorLabel: string
  readonly isQuarantined: boolean
  readonly birds: number
  /** Birds struck out of a nest that is otherwise fed. */
  readonly heldBirds: number
  readonly state: NestState
  /** The oldest that still warns: some of its birds have not been looked at. */
  readonly doubt: NestDoubt | null
}

/** The doubts that still warn whoever comes: at least one bird of theirs nobody has looked at. */
export const warningDoubts = (nest: Nest): readonly Doubt[] =>
  nest.doubts.filter((doubt) => doubt.birds.some((bird) => !doubt.looked.includes(bird)))

function doubtShown(
  board: Board,
  names: PublicNames,
  nest: Nest,
  nowMs: InstantMs,
): NestDoubt | null {
  const doubt = warningDoubts(nest)[0]
  if (!doubt) return null
  return {
    no: doubt.no,
    owner: doubt.owner,
    name: nameOf(board, names, doubt.owner),
    aboutAtMs: doubt.aboutAtMs,
    isAsking: doubt.owner !== null && nowMs < warnsFromMs(board, doubt),
  }
}

function holdShown(nest: Nest, birds: readonly Bird[], nowMs: InstantMs): NestState | null {
  const hold = nest.hold ?? (birds.every((bird) => bird.hold) ? birds[0]?.hold : null)
  if (!hold) return null
  const { reason, lookAgainAtMs } = hold
  return { type: 'held', reason, lookAgainAtMs, lookAgain: lookAgainStanding(hold, nowMs) }
}

function settlingShown(birds: readonly Bird[]): NestState | null {
  const looks = birds.flatMap(({ standing }) =>
    standing.type === 'settling' ? [standing.lookDueAtMs] : [],
  )
  if (looks.length === 0 || looks.length < birds.length) return null
  return { type: 'settling', lookDueAtMs: Math.min(...looks) }
}

function dueShown(board: Board, nest: Nest, nowMs: InstantMs): NestState {
  const dueAtMs = nestDueAtMs(board, nest.id)
  if (dueAtMs === null) return { type: 'unplanned' }
  const hours = hoursAt(board, nowMs)
  // While the room is closed nothing is due; whatever was late is due again when it opens.
  if (hours.type === 'closed') return { type: 'later', dueAtMs: Math.max(dueAtMs, hours.opensAtMs) }
  const late = lateMs(board, dueAtMs, nowMs)
  if (late >= minuteMs) return { type: 'late', dueAtMs, lateMs: late }
  if (dueAtMs <= nowMs) return { type: 'due', dueAtMs }
  const isReady = readyBirds(board, nest.id, undefined, nowMs).length > 0
  return { type: isReady ? 'soon' : 'later', dueAtMs }
}

function stateOf(board: Board, names: PublicNames, nest: Nest, nowMs: InstantMs): NestState {
  const { hands } = nest
  if (hands.type === 'held') {
    const name = nameOf(board, names, hands.person)
    const sinceMs = hands.claimedAtMs
    return { type: 'claimed', person: hands.person, name, sinceMs, stop: hands.stop }
  }
  const birds = birdsOf(board, nest.id)
  return holdShown(nest, birds, nowMs) ?? settlingShown(birds) ?? dueShown(board, nest, nowMs)
}

/**
 * One nest as everybody sees it at `nowMs` (the room's clock).
 * A claim hides every other state; a hold hides settling and due.
 */
export function nestSummary(
  board: Board,
  names: PublicNames,
  at: { readonly nest: Nest; readonly nowMs: InstantMs },
): NestSummary {
  const { nest, nowMs } = at
  const birds = birdsOf(board, nest.id)
  return {
    nest: nest.id,
    label: nest.label,
    incubator: nest.incubator,
    incubatorLabel: board.incubators[nest.incubator]?.label ?? '',
    isQuarantined: nest.isQuarantined,
    birds: birds.length,
    heldBirds: birds.filter((bird) => isHeld(nest, bird)).length,
    state: stateOf(board, names, nest, nowMs),
    doubt: doubtShown(board, names, nest, nowMs),
  }
}
