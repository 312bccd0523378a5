// What a room has written, read back from its files on disk.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type EventOf, type EventType, readEvents } from '../../shared/board/events.ts'

/** Every event of one type in a room's journal, in order. */
export function eventsOf<Type extends EventType>(
  roomDir: string,
  type: Type,
): readonly EventOf<Type>[] {
  const season = readdirSync(roomDir).find((name) => /^\d{4}$/.test(name))
  if (season === undefined) throw new Error('the room has no season')
  const folder = join(roomDir, season)
  return readdirSync(folder)
    .filter((name) => name.endsWith('.journal'))
    .sort()
    .flatMap((name) => readFileSync(join(folder, name), 'utf8').trimEnd().split('\n'))
    .flatMap((line) => readEvents(JSON.parse(line).events))
    .filter((event): event is EventOf<Type> => event.type === type)
}
