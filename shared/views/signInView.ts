// The tiles a person taps to say who they are. Everybody of the room is on them; a tile of somebody
// signed in on this device needs no PIN, and says what they have in hand.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Role } from '../board/constants.ts'
import type { Board, Person } from '../board/state.ts'
import { claimOf } from '../rules/decision.ts'
import { offeredTo } from '../rules/offers.ts'
import { requestTakenBy } from '../rules/openRequests.ts'
import { byName, nameOf, type PublicNames } from './names.ts'

export type NameTile = {
  readonly person: PersonId
  readonly name: string | null
  readonly role: Role
  readonly shift: Person['shift']
  readonly backAtMs: InstantMs | null
  /** Signed in on this very device, so that one tap switches to them. */
  readonly isSignedIn: boolean
  /** The label of the nest they have in hand, or are asked to take; and whether they are called. */
  readonly holds: string | null
  readonly offered: string | null
  readonly isCalled: boolean
}

/** Tiles by name, those signed in on this device first. */
export function signInView(
  board: Board,
  names: PublicNames,
  signedIn: readonly PersonId[],
): readonly NameTile[] {
  return Object.values(board.people)
    .filter((person) => !person.isRemoved)
    .map(({ id, role, shift, backAtMs }) => ({
      ...{ person: id, name: nameOf(board, names, id), role, shift, backAtMs },
      isSignedIn: signedIn.includes(id),
      holds: claimOf(board, id)?.nest.label ?? null,
      offered: offeredTo(board, id)?.label ?? null,
      isCalled: requestTakenBy(board, id) !== null,
    }))
    .sort((a, b) => Number(b.isSignedIn) - Number(a.isSignedIn) || byName(a, b))
}
