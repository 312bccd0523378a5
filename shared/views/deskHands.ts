// Everybody of the room as the desk lists them: what each may do, and what each has in hand or is asked
// for. One thing a person, the first that holds, as on the wall.

import type { InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import type { RequestKind, Role, SignOff } from '../board/constants.ts'
import type { Board, Person } from '../board/state.ts'
import { claimOf } from '../rules/decision.ts'
import { isMentorAway } from '../rules/mentors.ts'
import { isHands, offeredTo } from '../rules/offers.ts'
import { requestTakenBy } from '../rules/openRequests.ts'
import { byName, nameOf, type PublicNames } from './names.ts'

export type Doing =
  | {
      readonly type: 'claim'
      readonly nest: NestId
      readonly label: string
      readonly sinceMs: InstantMs
    }
  | {
      readonly type: 'call'
      readonly request: RequestId
      readonly kind: RequestKind
      readonly label: string | null
      readonly sinceMs: InstantMs
    }
  | { readonly type: 'asked'; readonly nest: NestId; readonly label: string }
  | { readonly type: 'break'; readonly backAtMs: InstantMs | null }
  | { readonly type: 'mentorAway' }
  /** On shift with empty hands, and no screen of theirs is heard: nobody can ask them. */
  | { readonly type: 'unreachable'; readonly sinceMs: InstantMs }
  /** On shift, but silent for a quarter of an hour with an offer unanswered. */
  | { readonly type: 'silent'; readonly sinceMs: InstantMs }
  | { readonly type: 'free' }
  | { readonly type: 'off' }

export type DeskHand = {
  readonly person: PersonId
  readonly name: string | null
  readonly role: Role
  readonly signOffs: readonly SignOff[]
  /** Who answers for a trainee; null for everybody else, and where nobody is named. */
  readonly mentor: { readonly person: PersonId; readonly name: string | null } | null
  readonly doing: Doing
  /** Since when no screen of theirs is heard, while their hands are full. */
  readonly unreachableSinceMs: InstantMs | null
}

export type DeskHands = {
  /** On shift or on a break, by name. */
  readonly here: readonly DeskHand[]
  readonly off: readonly DeskHand[]
  /** Names of those on shift who lead. */
  readonly leads: readonly (string | null)[]
}

function handsFull(board: Board, person: PersonId): Doing | null {
  const claim = claimOf(board, person)
  if (claim) {
    const { nest, held } = claim
    return { type: 'claim', nest: nest.id, label: nest.label, sinceMs: held.claimedAtMs }
  }
  const request = requestTakenBy(board, person)
  if (!request) return null
  const label = request.nest ? (board.nests[request.nest]?.label ?? null) : null
  const sinceMs = request.taken?.atMs ?? request.raisedAtMs
  return { type: 'call', request: request.id, kind: request.kind, label, sinceMs }
}

function doingOf(board: Board, person: Person, nowMs: InstantMs): Doing {
  if (person.shift === 'off') return { type: 'off' }
  const full = handsFull(board, person.id)
  if (full) return full
  if (person.shift === 'break') return { type: 'break', backAtMs: person.backAtMs }
  if (person.unreachableSinceMs !== null) {
    return { type: 'unreachable', sinceMs: person.unreachableSinceMs }
  }
  const nest = offeredTo(board, person.id)
  if (nest) return { type: 'asked', nest: nest.id, label: nest.label }
  if (isMentorAway(board, person.id)) return { type: 'mentorAway' }
  if (!isHands(person, nowMs)) return { type: 'silent', sinceMs: person.actedAtMs }
  return { type: 'free' }
}

const isLead = ({ role }: DeskHand): boolean => role === 'lead' || role === 'permitHolder'

/** Everybody who is not removed, at `nowMs`. */
export function deskHands(board: Board, names: PublicNames, nowMs: InstantMs): DeskHands {
  const all = Object.values(board.people)
    .filter((person) => !person.isRemoved)
    .map((person): DeskHand => {
      const { id, role, signOffs, mentor, unreachableSinceMs } = person
      return {
        person: id,
        name: nameOf(board, names, id),
        role,
        signOffs,
        mentor:
          role === 'trainee' && mentor !== null
            ? { person: mentor, name: nameOf(board, names, mentor) }
            : null,
        doing: doingOf(board, person, nowMs),
        unreachableSinceMs: handsFull(board, id) ? unreachableSinceMs : null,
      }
    })
    .sort(byName)
  const here = all.filter(({ doing }) => doing.type !== 'off')
  return {
    here,
    off: all.filter(({ doing }) => doing.type === 'off'),
    leads: here.filter((one) => isLead(one) && one.doing.type !== 'break').map(({ name }) => name),
  }
}
