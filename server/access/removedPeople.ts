// Somebody removed from the room loses PIN, code and sign-ins: told by the records as they become
// durable, and looked through once at the start for what a crash came in between of.

import type { PersonId } from '../../shared/base/values.ts'
import type { RoomToWatch } from '../gateway/ports.ts'
import type { Log } from '../log/log.ts'

/** The part of a room's secrets that a removal changes. */
export interface PeopleBook {
  hasPin(person: PersonId): boolean
  forgetPerson(person: PersonId): Promise<void>
}

/** Returns how to stop. */
export function forgetRemovedPeople(
  room: Pick<RoomToWatch, 'id' | 'durable' | 'subscribe'>,
  book: PeopleBook,
  log: Log,
): () => void {
  const forget = (person: PersonId) => {
    book.forgetPerson(person).catch((err: unknown) => {
      // Nobody gets in by it: the rules refuse whoever is removed. The next start tries again.
      log.error({ room: room.id, err }, 'the secrets of somebody removed could not be erased')
    })
  }
  for (const { id, isRemoved } of Object.values(room.durable.board.people)) {
    if (isRemoved && book.hasPin(id)) forget(id)
  }
  return room.subscribe(({ events }) => {
    for (const event of events) if (event.type === 'PersonRemoved') forget(event.person)
  })
}
