// A room founded by the rules themselves, in whatever zone and with whatever opening time, for facts
// about civil time. Instants are written as UTC.

import { emptyBoard } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { foundingEvents } from '../../shared/rules/founding.ts'

export type Zone = 'America/Los_Angeles' | 'Europe/London'
export type Opening = {
  readonly zone: Zone
  readonly opensMinute: number
  readonly nowMs: number
  readonly civilOffsetMs?: number
}

export const utc = (iso: string): number => Date.parse(iso)
export const iso = (atMs: number): string => new Date(atMs).toISOString().replace('.000Z', 'Z')
export const seven = 7 * 60

/** It closes at nine in the evening. */
export const foundedRoom = ({ zone, opensMinute, nowMs, civilOffsetMs = 0 }: Opening) =>
  foldEvents(
    emptyBoard,
    foundingEvents({
      room: 'meadow',
      season: '2026',
      title: 'Meadow Lane nursery',
      zone,
      opensMinute,
      closesMinute: 21 * 60,
      civilOffsetMs,
      nowMs,
    }),
  )
