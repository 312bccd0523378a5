// Mistakes put into a simulated world on purpose, and where each of them is put: a flag the server
// knows, or something of ours that stands between two of its parts. Which seed finds which is in
// `plantedBugs.test.ts`; a world without any is the one that must be clean.

import type { OutboxStore } from '../../client/session/ports.ts'
import type { Disk } from '../../server/disk/disk.ts'
import type { RoomBrain } from '../../server/room/realBrain.ts'
import type { ScribeBugs } from '../../server/scribe/plantedBugs.ts'
import type { TimersPort } from '../../server/scribe/ports.ts'

/** The part of the brain that screens have. */
export type ScreenBrain = Pick<RoomBrain, 'evolve' | 'hashBoard'>

export type PlantedBug = {
  readonly scribe?: ScribeBugs
  /** The server's rules, changed. */
  readonly serverBrain?: (brain: RoomBrain) => RoomBrain
  /** What every screen folds and hashes with, changed. */
  readonly screenBrain?: (brain: ScreenBrain) => ScreenBrain
  readonly disk?: (disk: Disk) => Disk
  readonly serverTimers?: (timers: TimersPort) => TimersPort
  readonly store?: (store: OutboxStore) => OutboxStore
}

export const noBug: PlantedBug = {}
