// A room's part of /health, from what the room says of itself.

import type { RoomToWatch } from '../gateway/ports.ts'
import type { RoomHealth } from './health.ts'

export function roomHealth(room: RoomToWatch): RoomHealth {
  const { board, version } = room.durable
  const house = room.house()
  return {
    room: room.id,
    season: board.room.season,
    epoch: room.epoch,
    version,
    journal: house.some(({ type }) => type === 'journalFailing') ? 'failing' : 'ok',
    damaged: house.flatMap((condition) =>
      condition.type === 'damageFound' ? [condition.file] : [],
    ),
  }
}
