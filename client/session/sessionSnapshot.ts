// What a screen that takes part in the room can show at one moment. Types only.

import type { PersonId } from '../../shared/base/values.ts'
import type { PendingEntry } from './pending.ts'
import type { Noted, StuckEntry } from './ports.ts'
import type { RoomSnapshot } from './roomSnapshot.ts'

/** An ask that had got through although nobody waited for its answer any more. */
export type LateAnswer = Pick<Noted, 'by' | 'body'> & {
  readonly n: number
  readonly version: number
}

export type SessionSnapshot = RoomSnapshot & {
  /** Live, paired, and the lane taken on: an ask would be sent. */
  readonly canAsk: boolean
  readonly signedIn: readonly PersonId[]
  readonly pending: readonly PendingEntry[]
  readonly stuck: readonly StuckEntry[]
  /** Earliest first, the latest few; each stays until it is dismissed. */
  readonly lateAnswers: readonly LateAnswer[]
  /** This device's own store failed: what is pending may not survive a reload. */
  readonly isStoreFailing: boolean
}
