// What any screen can show of the room at one moment: the confirmed board, and how far to trust it.
// Types only.

import type { InstantMs } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { FaultCode, HouseCondition, Names, Welcome } from '../../shared/wire/frames.ts'

/**
 * `connecting` turns into `notLive` after 10 s without a word; sooner when the server refuses us by name
 * or shows a board that cannot be right. `sinceMs` is the room's time last heard, null if none ever was.
 */
export type Liveness =
  | { readonly status: 'live' }
  | { readonly status: 'connecting' }
  | { readonly status: 'notLive'; readonly sinceMs: InstantMs | null; readonly why: NotLiveWhy }
export type NotLiveWhy = 'silent' | 'behind' | 'otherBoard' | FaultCode

export type RoomSnapshot = {
  /** As the server confirmed it; null until the first welcome, and kept while not live. */
  readonly board: Board | null
  readonly epoch: number
  readonly version: number
  readonly names: Names
  readonly liveness: Liveness
  readonly house: readonly HouseCondition[]
  readonly device: Welcome['device']
  /** The room's time when this snapshot was made; `roomNowMs()` goes on. */
  readonly roomNowMs: InstantMs | null
  readonly speed: number
}
