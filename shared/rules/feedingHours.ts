// Feeding hours as instants: how much of a stretch of time lay inside them, and when so much of it will
// have. Only the days on the board are known; the next one is added by the clock when it opens.

import type { InstantMs, LengthMs } from '../base/values.ts'
import type { DayWindow } from '../board/parts.ts'
import type { Board } from '../board/state.ts'

/** The feeding day that opened last. A board that has been founded always has one. */
export function today(board: Board): DayWindow {
  const day = board.days.at(-1)
  if (!day) throw new Error('the board has no feeding day: its founding record is missing')
  return day
}

export function isOpen(board: Board, nowMs: InstantMs): boolean {
  const day = today(board)
  return nowMs >= day.opensAtMs && nowMs < day.closesAtMs
}

/** Milliseconds between two instants that lay inside feeding hours; 0 when `toMs` is not after. */
export function openMsBetween(board: Board, fromMs: InstantMs, toMs: InstantMs): LengthMs {
  let open = 0
  for (const day of board.days) {
    open += Math.max(0, Math.min(toMs, day.closesAtMs) - Math.max(fromMs, day.opensAtMs))
  }
  return open
}

/** The instant at which `openMs` of feeding hours have passed since `fromMs`; null while not yet known. */
export function afterOpenMs(board: Board, fromMs: InstantMs, openMs: LengthMs): InstantMs | null {
  let left = openMs
  for (const day of board.days) {
    const start = Math.max(fromMs, day.opensAtMs)
    const length = Math.max(0, day.closesAtMs - start)
    if (left <= length) return start + left
    left -= length
  }
  return null
}
