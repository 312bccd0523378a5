// Who counts as signed in on a device: those the doorkeeper names who are still people of the room. A
// removal counts from its record on, and not from when their sign-in is erased on disk.

import type { PersonId } from '../../shared/base/values.ts'
import type { RoomDoor } from './ports.ts'

export const isInRoom = ({ room }: Pick<RoomDoor, 'room'>, person: PersonId): boolean =>
  room.durable.board.people[person]?.isRemoved === false

export const peopleOn = (door: RoomDoor, device: string): readonly PersonId[] =>
  door.doorkeeper.signedIn(device).filter((person) => isInRoom(door, person))
