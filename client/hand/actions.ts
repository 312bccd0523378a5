// Everything the pages can do, by what it is about.

import type { Session } from '../session/session.ts'
import type { Say } from '../ui/words.ts'
import { Acting } from './acting.ts'
import { BroodActions } from './broodActions.ts'
import { CallActions } from './callActions.ts'
import { LeadActions } from './leadActions.ts'
import { RoundActions } from './roundActions.ts'
import { SignActions } from './signActions.ts'
import type { Ui } from './ui.ts'

export type Actions = {
  readonly sign: SignActions
  readonly round: RoundActions
  readonly brood: BroodActions
  readonly call: CallActions
  readonly lead: LeadActions
}

export function createActions(session: Session, ui: Ui, say: Say): Actions {
  const acting = new Acting(session, ui, say)
  return {
    sign: new SignActions(acting),
    round: new RoundActions(acting),
    brood: new BroodActions(acting),
    call: new CallActions(acting),
    lead: new LeadActions(acting),
  }
}
