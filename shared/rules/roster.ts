// Who is in the room and what they are signed off for: people, shifts, breaks. Nobody leaves with a
// nest in hand; when somebody is removed who has one, their claim ends as if it had lapsed.

import type { PersonId, PrivateId } from '../base/values.ts'
import { withCounter, withNest, withPerson } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { peopleMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Person } from '../board/state.ts'
import { numberOf } from './broods.ts'
import { claimEnded } from './claiming.ts'
import type { Context } from './context.ts'
import { claimOf, type Decision, type Events, happened, nothingNew, refuse } from './decision.ts'
import { raised } from './doubts.ts'
import { mentorLeaves, signOffLeaves } from './mentors.ts'
import { leadToldAll } from './notices.ts'
import { withFreshPerson } from './offers.ts'
import { requestTakenBy } from './openRequests.ts'
import { requestsPutBack } from './requests.ts'

export function decideShift(
  board: Board,
  command: CommandOf<'BeginShift' | 'EndShift' | 'BeginBreak' | 'EndBreak'>,
  context: Context,
): Decision {
  const person = board.people[context.by]
  if (!person) return refuse({ code: 'PersonUnknown', person: context.by })
  const at = { v: 1, person: person.id, atMs: context.nowMs } as const
  if (command.type === 'BeginShift') {
    return person.shift === 'off' ? happened({ type: 'ShiftBegun', ...at }) : nothingNew
  }
  if (command.type === 'EndBreak') {
    return person.shift === 'break' ? happened({ type: 'BreakEnded', ...at }) : nothingNew
  }
  const claim = claimOf(board, person.id)
  if (claim) return refuse({ code: 'FinishFirst', nest: claim.nest.id })
  const request = requestTakenBy(board, person.id)
  if (request) return refuse({ code: 'ResolveFirst', request: request.id })
  if (command.type === 'BeginBreak' && person.shift === 'break') return nothingNew
  const told = leadToldAll(board, mentorLeaves(board, person.id), context.nowMs)
  if (command.type === 'EndShift') return happened({ type: 'ShiftEnded', ...at }, ...told)
  const back = command.backAtMs === undefined ? {} : { backAtMs: command.backAtMs }
  return happened({ type: 'BreakBegun', ...at, ...back }, ...told)
}

export function decideAddPerson(
  board: Board,
  command: CommandOf<'AddPerson'>,
  context: Context,
): Decision {
  const present = Object.values(board.people).filter((person) => !person.isRemoved)
  if (present.length >= peopleMax) return refuse({ code: 'BoardFull', what: 'people' })
  if (!context.private) throw new Error('a person needs a name in the private file')
  return happened({
    type: 'PersonAdded',
    v: 1,
    person: `p${board.counters.person + 1}` as PersonId,
    role: command.role,
    signOffs: command.signOffs,
    name: context.private,
  })
}

export function decideSignOffs(
  board: Board,
  command: CommandOf<'SetSignOffs'>,
  context: Context,
): Decision {
  const person = board.people[command.person]
  if (!person || person.isRemoved) return refuse({ code: 'PersonUnknown', person: command.person })
  const isMentorStill = command.signOffs.includes('mentor')
  const gone = isMentorStill ? [] : mentorLeaves(board, person.id)
  return happened(
    { type: 'SignOffsSet', v: 1, person: person.id, signOffs: command.signOffs },
    ...leadToldAll(board, [...signOffLeaves(board, command), ...gone], context.nowMs),
  )
}

export function decideRemove(
  board: Board,
  command: CommandOf<'RemovePerson'>,
  context: Context,
): Decision {
  const person = board.people[command.person]
  if (!person || person.isRemoved) return refuse({ code: 'PersonUnknown', person: command.person })
  const { nowMs } = context
  return happened(
    ...lapsed(board, person.id, nowMs, null),
    ...requestsPutBack(board, person.id, nowMs),
    ...leadToldAll(board, mentorLeaves(board, person.id), nowMs),
    { type: 'PersonRemoved', v: 1, person: person.id },
  )
}

/** Ends this person's claim with a doubt over the birds they had not answered for. */
export function lapsed(
  board: Board,
  person: PersonId,
  nowMs: number,
  owner: PersonId | null,
): Events {
  const claim = claimOf(board, person)
  if (!claim) return []
  const { nest, held } = claim
  const birds = held.birds.filter((bird) => !held.answered.includes(bird))
  const doubt = {
    no: held.claimNo,
    kind: 'silent',
    owner,
    aboutAtMs: held.startedAtMs,
    birds,
  } as const
  return [
    claimEnded(nest.id, held.claimNo, 'lapsed', nowMs),
    ...(birds.length > 0 ? raised(nest, doubt, nowMs) : []),
  ]
}

export function evolvePersonAdded(board: Board, event: EventOf<'PersonAdded'>): Board {
  const person: Person = {
    id: event.person,
    nameId: event.name.id as PrivateId,
    role: event.role,
    signOffs: event.signOffs,
    shift: 'off',
    shiftSinceMs: 0,
    backAtMs: null,
    isRemoved: false,
    mentor: null,
    actedAtMs: 0,
    unanswered: 0,
    tally: { sinceMs: 0, visits: 0, fed: 0, refused: 0, calls: 0 },
    unreachableSinceMs: null,
  }
  const added = { ...board, people: { ...board.people, [person.id]: person } }
  return withCounter(added, 'person', numberOf(person.id))
}

/** A removed person keeps their place, so that old records still point at somebody; their doubts do not. */
export function evolveRemoved(board: Board, event: EventOf<'PersonRemoved'>): Board {
  const removed = withPerson(board, event.person, (person) => ({
    ...person,
    shift: 'off',
    isRemoved: true,
  }))
  return Object.values(removed.nests).reduce(
    (next, { id, doubts }) =>
      doubts.some((doubt) => doubt.owner === event.person)
        ? withNest(next, id, (nest) => ({
            ...nest,
            doubts: nest.doubts.map((doubt) =>
              doubt.owner === event.person ? { ...doubt, owner: null } : doubt,
            ),
          }))
        : next,
    removed,
  )
}

export function evolveShift(
  board: Board,
  event: EventOf<'ShiftBegun' | 'ShiftEnded' | 'BreakBegun' | 'BreakEnded'>,
): Board {
  const shift = event.type === 'ShiftEnded' ? 'off' : event.type === 'BreakBegun' ? 'break' : 'on'
  const fresh = shift === 'on' ? withFreshPerson(board, event.person) : board
  return withPerson(fresh, event.person, (person) => ({
    ...person,
    shift,
    shiftSinceMs: event.atMs,
    backAtMs: event.type === 'BreakBegun' ? (event.backAtMs ?? null) : null,
    // Whoever signs in, or ends a break, has just tapped a screen.
    unreachableSinceMs: shift === 'on' ? null : person.unreachableSinceMs,
  }))
}
