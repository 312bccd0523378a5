// What every page of a screen that can write draws from: the board as this device has it, what still
// waits here, and how ids and instants are read out.

import type { InstantMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { PublicNames } from '../../shared/views/names.ts'
import type { WaitingView } from '../../shared/views/waitingView.ts'
import type { SessionSnapshot } from '../session/sessionSnapshot.ts'
import type { Say } from './words.ts'

export type DrawnRoom = {
  readonly snapshot: SessionSnapshot
  /** The confirmed board with this device's waiting reports on it. */
  readonly board: Board
  readonly names: PublicNames
  readonly nowMs: InstantMs
  readonly waiting: WaitingView
  readonly say: Say
}
