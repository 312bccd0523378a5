// Mistakes put into a simulated world on purpose, and where each of them is put: a flag the server
// knows, or something of ours that stands between two of its parts. `bugs.ts` has them all; a world
// without any is the one that must be clean.

import type { Link, OutboxStore, Timers } from '../../client/session/ports.ts'
import type { ClockSource } from '../../server/clock/roomClock.ts'
import type { Disk } from '../../server/disk/disk.ts'
import type { RoomBrain } from '../../server/room/realBrain.ts'
import type { ScribeBugs } from '../../server/scribe/plantedBugs.ts'

/** The part of the brain that screens have. */
export type ScreenBrain = Pick<RoomBrain, 'evolve' | 'hashBoard'>

export type PlantedBug = {
  readonly scribe?: ScribeBugs
  /** The server's rules, changed. */
  readonly serverBrain?: (brain: RoomBrain) => RoomBrain
  /** What every screen folds and hashes with, changed. */
  readonly screenBrain?: (brain: ScreenBrain) => ScreenBrain
  readonly disk?: (disk: Disk) => Disk
  readonly clockSource?: (source: ClockSource) => ClockSource
  readonly store?: (store: OutboxStore) => OutboxStore
  readonly link?: (link: Link) => Link
  readonly deviceTimers?: (timers: Timers) => Timers
  /** A server that is not the first one here sets up its timers and its listeners twice. */
  readonly startsTwice?: true
}

export const noBug: PlantedBug = {}
