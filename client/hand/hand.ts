// What every page of the handheld is given: the board as this device draws it, the person it serves,
// how things are said, and what can be done. Made anew for each drawing by app.ts.

import type { PersonId } from '../../shared/base/values.ts'
import type { DrawnRoom } from '../ui/drawnRoom.ts'
import type { Actions } from './actions.ts'
import type { Draft } from './draft.ts'
import type { Page } from './page.ts'
import type { UiState } from './ui.ts'

/** Before anybody is chosen, or any board known, only the name tiles can be drawn. */
export type Hand = DrawnRoom & {
  readonly ui: UiState
  readonly actions: Actions
  readonly go: (page: Page) => void
  readonly change: (change: (state: UiState) => UiState) => void
  readonly setDraft: (key: string, draft: Draft) => void
}

/** A page of the person who is served. */
export type Served = Hand & { readonly person: PersonId }
