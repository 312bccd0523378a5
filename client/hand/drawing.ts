// From what the session knows and what fingers have done to what the pages are given: the board with
// this device's own waiting reports on it, the room's time, and how names and times are said.

import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { drawnBoard } from '../../shared/views/drawnBoard.ts'
import { nameOf } from '../../shared/views/names.ts'
import { waitingView } from '../../shared/views/waitingView.ts'
import type { PendingEntry } from '../session/pending.ts'
import type { SessionSnapshot } from '../session/sessionSnapshot.ts'
import { clockTime } from '../ui/clock.ts'
import { formerHelper, type Say } from '../ui/words.ts'
import type { Actions } from './actions.ts'
import type { Hand } from './hand.ts'
import { onPage, type Ui, withDraft } from './ui.ts'

/** A report usually is saved before anybody could read that it waits; real milliseconds. */
const soonSavedMs = 1_500

export const sayOf = (snapshot: () => SessionSnapshot): Say => ({
  time: (atMs) => clockTime((snapshot().board ?? emptyBoard).room, atMs),
  person: (person) => {
    const { board, names } = snapshot()
    return (board && nameOf(board, names, person)) ?? formerHelper
  },
  nest: (nest) => snapshot().board?.nests[nest]?.label ?? '',
})

const reportsOf = (pending: readonly PendingEntry[], nowMs: number) =>
  pending
    .filter(({ kind }) => kind === 'report')
    .map((entry) => ({
      id: String(entry.n),
      by: entry.by,
      command: entry.body,
      notedAtMs: entry.notedAtMs ?? nowMs,
      isShown: entry.state !== 'answered' && entry.agoMs >= soonSavedMs,
      entry,
    }))

type Parts = {
  readonly snapshot: SessionSnapshot
  readonly nowMs: number
  readonly ui: Ui
  readonly say: Say
  readonly actions: Actions
}

/** What the pages draw from; the board before any was heard is the empty one. */
export function handOf({ snapshot, nowMs, ui, say, actions }: Parts): Hand {
  const confirmed: Board = snapshot.board ?? emptyBoard
  const reports = reportsOf(snapshot.pending, nowMs)
  const isLive = snapshot.liveness.status === 'live'
  const board =
    reports.length === 0 || confirmed === emptyBoard ? confirmed : drawnBoard(confirmed, reports)
  const shown = reports.filter(({ isShown }) => isShown || !isLive)
  return {
    snapshot,
    board,
    names: snapshot.names,
    nowMs,
    waiting: waitingView(board, shown, nowMs),
    ui: ui.value,
    say,
    actions,
    go: (page) => {
      ui.value = onPage(ui.value, page)
    },
    change: (change) => {
      ui.value = change(ui.value)
    },
    setDraft: (key, draft) => {
      ui.value = withDraft(ui.value, key, draft)
    },
  }
}
