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

/** The stretches of feeding hours from an instant on, in order. Days that overlap count once. */
function stretches(
  board: Board,
  fromMs: InstantMs,
): readonly { fromMs: InstantMs; toMs: InstantMs }[] {
  let cursorMs = fromMs
  return board.days.flatMap((day) => {
    const stretch = { fromMs: Math.max(cursorMs, day.opensAtMs), toMs: day.closesAtMs }
    cursorMs = Math.max(cursorMs, day.closesAtMs)
    return stretch.toMs > stretch.fromMs ? [stretch] : []
  })
}

/** Milliseconds between two instants that lay inside feeding hours; 0 when `toMs` is not after. */
export const openMsBetween = (board: Board, fromMs: InstantMs, toMs: InstantMs): LengthMs =>
  stretches(board, fromMs).reduce(
    (open, stretch) => open + Math.max(0, Math.min(toMs, stretch.toMs) - stretch.fromMs),
    0,
  )

/** The instant at which `openMs` of feeding hours have passed since `fromMs`; null while not yet known. */
export function afterOpenMs(board: Board, fromMs: InstantMs, openMs: LengthMs): InstantMs | null {
  let leftMs = openMs
  for (const stretch of stretches(board, fromMs)) {
    const lengthMs = stretch.toMs - stretch.fromMs
    if (leftMs <= lengthMs) return stretch.fromMs + leftMs
    leftMs -= lengthMs
  }
  return null
}
