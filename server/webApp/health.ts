// What /health answers, for whoever watches the machine: no names, nothing from the board but numbers.

import { protocolVersion } from '../../shared/wire/limits.ts'

export type RoomHealth = {
  readonly room: string
  readonly season: string
  readonly epoch: number
  readonly version: number
  /** `failing`: nothing more can be recorded until the journal is reopened. */
  readonly journal: 'ok' | 'failing'
  /** Files of earlier days in which damage was found. */
  readonly damaged: readonly string[]
}

/** The first room's numbers stand at the top as well, since most houses have one. */
export function healthReport(rooms: readonly RoomHealth[], uptimeS: number) {
  const isFailing = rooms.length === 0 || rooms.some((room) => room.journal === 'failing')
  return {
    status: isFailing ? 'failing' : 'ok',
    protocol: protocolVersion,
    uptimeS,
    ...rooms[0],
    journal: isFailing ? 'failing' : 'ok',
    rooms,
  } as const
}
