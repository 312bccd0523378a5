// Names beside the board: what a screen may show of the private file, by id. A person whose name was
// erased has none, and the words say so; nothing here makes up a sentence.

import type { PersonId, PrivateId } from '../base/values.ts'
import type { Board } from '../board/state.ts'

/** First names and notes by the id the board holds; anything else is never sent to a screen. */
export type PublicNames = Readonly<
  Record<PrivateId, { readonly name?: string; readonly note?: string }>
>

/** The person's first name; null where it was erased, or where nobody is meant. */
export function nameOf(board: Board, names: PublicNames, person: PersonId | null): string | null {
  if (person === null) return null
  const known = board.people[person]
  return known ? (names[known.nameId]?.name ?? null) : null
}

/** Names as people sort them: without regard to capitals, the nameless last, then by id. */
export function byName(
  a: { readonly person: PersonId; readonly name: string | null },
  b: { readonly person: PersonId; readonly name: string | null },
): number {
  if (a.name === null || b.name === null) return Number(a.name === null) - Number(b.name === null)
  const left = a.name.toLowerCase()
  const right = b.name.toLowerCase()
  if (left !== right) return left < right ? -1 : 1
  return a.person < b.person ? -1 : 1
}
