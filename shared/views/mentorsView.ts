// Who learns with whom, and who could answer for a trainee.

import type { PersonId } from '../base/values.ts'
import type { Board, Person } from '../board/state.ts'
import { isMentorAway } from '../rules/mentors.ts'
import { byName, nameOf, type PublicNames } from './names.ts'

export type TraineeShown = {
  readonly person: PersonId
  readonly name: string | null
  readonly mentor: PersonId | null
  readonly mentorName: string | null
  readonly isMentorAway: boolean
}

export type MentorShown = {
  readonly person: PersonId
  readonly name: string | null
  readonly isHere: boolean
}

const present = (board: Board): readonly Person[] =>
  Object.values(board.people).filter((person) => !person.isRemoved)

/** Every trainee of the room, by name. */
export const traineesView = (board: Board, names: PublicNames): readonly TraineeShown[] =>
  present(board)
    .filter(({ role }) => role === 'trainee')
    .map(({ id, mentor }) => ({
      ...{ person: id, name: nameOf(board, names, id), mentor },
      mentorName: nameOf(board, names, mentor),
      isMentorAway: isMentorAway(board, id),
    }))
    .sort(byName)

/** Everybody signed off as a mentor but the trainee, those on shift first. */
export const mentorsFor = (
  board: Board,
  names: PublicNames,
  trainee: PersonId,
): readonly MentorShown[] =>
  present(board)
    .filter(({ id, signOffs }) => id !== trainee && signOffs.includes('mentor'))
    .map(({ id, shift }) => ({
      ...{ person: id, name: nameOf(board, names, id), isHere: shift === 'on' },
    }))
    .sort((a, b) => Number(b.isHere) - Number(a.isHere) || byName(a, b))
