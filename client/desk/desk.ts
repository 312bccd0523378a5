// What every part of the desk is given: the board as this device draws it, the person it serves, how
// things are said, and what can be done. Made anew for each drawing by page.ts.

import type { PersonId } from '../../shared/base/values.ts'
import type { DrawnRoom } from '../ui/drawnRoom.ts'
import type { DeskActions } from './actions.ts'
import type { JournalBook } from './journalBook.ts'
import type { UiState } from './ui.ts'

export type Desk = DrawnRoom & {
  readonly ui: UiState
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
