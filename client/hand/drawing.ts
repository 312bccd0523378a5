// From what the session knows to what a page is given: the drawn board, what waits to be saved, how
// names and times are said, and the presses.

import type { SessionSnapshot } from '../session/sessionSnapshot.ts'
import { drawnReports } from '../ui/drawnReports.ts'
import type { Say } from '../ui/words.ts'
import type { Actions } from './actions.ts'
import type { Hand } from './hand.ts'
import { onPage, type Ui, withDraft } from './ui.ts'

type Parts = {
  readonly snapshot: SessionSnapshot
  readonly nowMs: number
  readonly ui: Ui
  readonly say: Say
  readonly actions: Actions
}

/** What the pages draw from; the board before any was heard is the empty one. */
export function handOf({ snapshot, nowMs, ui, say, actions }: Parts): Hand {
  return {
    snapshot,
    ...drawnReports(snapshot, nowMs),
    names: snapshot.names,
    nowMs,
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
