// What this device noted and the room has not saved, as a page draws it: on the board at once, and in
// words only where it has waited long enough to be read.

import type { InstantMs } from '../../shared/base/values.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { drawnBoard } from '../../shared/views/drawnBoard.ts'
import { type WaitingView, waitingView } from '../../shared/views/waitingView.ts'
import type { PendingEntry } from '../session/pending.ts'
import type { SessionSnapshot } from '../session/sessionSnapshot.ts'

/** A report usually is saved before anybody could read that it waits; real milliseconds. */
const soonSavedMs = 1_500

const reportsOf = (pending: readonly PendingEntry[], nowMs: number) =>
  pending
    .filter(({ kind }) => kind === 'report')
    .map((entry) => ({
      id: String(entry.n),
      by: entry.by,
      command: entry.body,
      notedAtMs: entry.notedAtMs ?? nowMs,
      isShown: entry.state !== 'answered' && entry.agoMs >= soonSavedMs,
    }))

/** The confirmed board with this device's reports on it; the board before any was heard is the empty one. */
export function drawnReports(
  snapshot: SessionSnapshot,
  nowMs: InstantMs,
): { readonly board: Board; readonly waiting: WaitingView } {
  const confirmed: Board = snapshot.board ?? emptyBoard
  const reports = reportsOf(snapshot.pending, nowMs)
  const isLive = snapshot.liveness.status === 'live'
  const board =
    reports.length === 0 || confirmed === emptyBoard ? confirmed : drawnBoard(confirmed, reports)
  const shown = reports.filter(({ isShown }) => isShown || !isLive)
  return { board, waiting: waitingView(board, shown, nowMs) }
}
