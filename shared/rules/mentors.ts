// A trainee works beside a named mentor. Without one on shift they may claim nothing; what they have
// in hand goes on, and the lead is told. Roster rules proper are in roster.ts.

import type { PersonId } from '../base/values.ts'
import { withPerson } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { EventOf } from '../board/events.ts'
import type { Board } from '../board/state.ts'
import type { Context } from './context.ts'
import { claimOf, type Decision, happened, refuse } from './decision.ts'
import { planOf } from './due.ts'
import type { News } from './notices.ts'

/** Whether a trainee's mentor is not there to answer for them; false for everybody else. */
export function isMentorAway(board: Board, person: PersonId): boolean {
  const actor = board.people[person]
  if (actor?.role !== 'trainee') return false
  const mentor = actor.mentor === null ? undefined : board.people[actor.mentor]
  return mentor?.shift !== 'on' || mentor.isRemoved || !mentor.signOffs.includes('mentor')
}

export function decideMentor(
  board: Board,
  command: CommandOf<'SetMentor'>,
  _context: Context,
): Decision {
  const person = board.people[command.person]
  if (!person || person.isRemoved) return refuse({ code: 'PersonUnknown', person: command.person })
  const mentor = command.mentor === null ? null : board.people[command.mentor]
  const isFit = mentor?.signOffs.includes('mentor') && !mentor.isRemoved && mentor !== person
  if (command.mentor !== null && !isFit) return refuse({ code: 'NoMentor', person: command.mentor })
  return happened({ type: 'MentorSet', v: 1, person: person.id, mentor: command.mentor })
}

/** What the lead hears of trainees who hold a nest while this mentor leaves. */
export function mentorLeaves(board: Board, mentor: PersonId): readonly News[] {
  return Object.values(board.people).flatMap((trainee) => {
    if (trainee.role !== 'trainee' || trainee.mentor !== mentor) return []
    const claim = claimOf(board, trainee.id)
    return claim ? [{ why: 'mentorGone', nest: claim.nest.id, person: trainee.id }] : []
  })
}

/** What the lead hears of a claim whose holder has just lost the sign-off it needs. */
export function signOffLeaves(board: Board, command: CommandOf<'SetSignOffs'>): readonly News[] {
  const claim = claimOf(board, command.person)
  const isLost = claim?.held.birds.some((id) => {
    const bird = board.birds[id]
    const technique = bird ? planOf(board, bird)?.technique : undefined
    return technique !== undefined && !command.signOffs.includes(technique)
  })
  return isLost ? [{ why: 'signOffGone', nest: claim?.nest.id, person: command.person }] : []
}

export const evolveMentor = (board: Board, event: EventOf<'MentorSet'>): Board =>
  withPerson(board, event.person, (person) => ({ ...person, mentor: event.mentor }))
