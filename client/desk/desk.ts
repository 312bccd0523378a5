// What every part of the desk is given: the board as this device draws it, the person it serves, how
// things are said, and what can be done. Made anew for each drawing by page.ts.

import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { PublicNames } from '../../shared/views/names.ts'
import type { WaitingView } from '../../shared/views/waitingView.ts'
import type { SessionSnapshot } from '../session/sessionSnapshot.ts'
import type { Say } from '../ui/words.ts'
import type { DeskActions } from './actions.ts'
import type { JournalBook } from './journalBook.ts'
import type { UiState } from './ui.ts'

export type Desk = {
  readonly snapshot: SessionSnapshot
  /** The confirmed board with this device's waiting reports on it. */
  readonly board: Board
  readonly names: PublicNames
  readonly nowMs: InstantMs
  readonly waiting: WaitingView
  readonly ui: UiState
  readonly say: Say
  readonly actions: DeskActions
  readonly journal: JournalBook
  readonly change: (part: Partial<UiState>) => void
}

/** The desk of a person who has signed in. */
export type Served = Desk & {
  readonly person: PersonId
  readonly isLead: boolean
  readonly isPermitHolder: boolean
}
