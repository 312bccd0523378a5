// Whether the room feeds now, as every screen says it.

import type { InstantMs } from '../base/values.ts'
import type { Board } from '../board/state.ts'
import { isOpen, today } from '../rules/feedingHours.ts'

export type Hours =
  | { readonly type: 'open'; readonly closesAtMs: InstantMs }
  | { readonly type: 'alwaysOpen' }
  | { readonly type: 'closed'; readonly opensAtMs: InstantMs }

/** Whether the room feeds at `nowMs`, and until or from when. */
export function hoursAt(board: Board, nowMs: InstantMs): Hours {
  const { opensAtMs, closesAtMs, nextOpensAtMs } = today(board)
  if (closesAtMs === nextOpensAtMs) return { type: 'alwaysOpen' }
  if (isOpen(board, nowMs)) return { type: 'open', closesAtMs }
  return { type: 'closed', opensAtMs: nowMs < opensAtMs ? opensAtMs : nextOpensAtMs }
}
