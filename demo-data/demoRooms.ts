// The demo rooms a start makes in a folder that holds no room, and who can sign in to each. All of it is
// invented, so anybody may know the PINs.

import type { PersonId } from '../shared/base/values.ts'
import type { Role } from '../shared/board/constants.ts'
import type { DemoRoom } from './demoRoom.ts'
import { person } from './ids.ts'
import { longRoom } from './longRoom.ts'
import { nestlingRoom } from './nestlingRoom.ts'

export type DemoSignIn = {
  readonly person: PersonId
  readonly name: string
  readonly role: Role
  readonly pin: string
}

/** In the order of the people's ids. */
const signInsOf = ({ people }: DemoRoom): readonly DemoSignIn[] =>
  people.map(({ name, role, pin }, at) => ({ person: person(at + 1), name, role, pin }))

export const demoRooms: readonly (DemoRoom & { readonly signIns: readonly DemoSignIn[] })[] = [
  { ...nestlingRoom, signIns: signInsOf(nestlingRoom) },
  { ...longRoom, signIns: signInsOf(longRoom) },
]
