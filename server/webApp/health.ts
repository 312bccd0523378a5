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

/** A room of this house that could not be opened, and why, in a sentence. */
export type RefusedHealth = {
  readonly room: string
  readonly journal: 'refused'
  readonly why: string
}

/**
 * The first room's numbers stand at the top as well, since many houses have one. A house is well when
 * every room of it can be written to.
 */
export function healthReport(rooms: readonly (RoomHealth | RefusedHealth)[], uptimeS: number) {
  const isFailing = rooms.length === 0 || rooms.some(({ journal }) => journal !== 'ok')
  return {
    status: isFailing ? 'failing' : 'ok',
    protocol: protocolVersion,
    uptimeS,
    ...rooms.find(({ journal }) => journal !== 'refused'),
    journal: isFailing ? 'failing' : 'ok',
    rooms,
  } as const
}
