// The tiles a person taps to say who they are. Everybody of the room is on them; a tile with a shift
// already begun on this device needs no PIN.

import type { PersonId } from '../base/values.ts'
import type { Role } from '../board/constants.ts'
import type { Board, Person } from '../board/state.ts'
import { byName, nameOf, type PublicNames } from './names.ts'

export type NameTile = {
  readonly person: PersonId
  readonly name: string | null
  readonly role: Role
  readonly shift: Person['shift']
  /** Signed in on this very device, so that one tap switches to them. */
  readonly isSignedIn: boolean
}

/** Tiles by name, those signed in on this device first. */
export function signInView(
  board: Board,
  names: PublicNames,
  signedIn: readonly PersonId[],
): readonly NameTile[] {
  return Object.values(board.people)
    .filter((person) => !person.isRemoved)
    .map(({ id, role, shift }) => ({
      person: id,
      name: nameOf(board, names, id),
      role,
      shift,
      isSignedIn: signedIn.includes(id),
    }))
    .sort((a, b) => Number(b.isSignedIn) - Number(a.isSignedIn) || byName(a, b))
}
