// The one flush of a batch: the private texts first, since a record must never name what is not
// there, then all its records at once. Throws when any of it is not known to be on disk.

import { assert } from '../../shared/base/control.ts'
import type { Board } from '../../shared/board/state.ts'
import type { ScribeBugs } from './plantedBugs.ts'
import type { JournalPort, PrivatePort } from './ports.ts'
import type { Working } from './working.ts'

export type FlushPorts = {
  readonly journal: Pick<JournalPort, 'append'>
  readonly privateFile: Pick<PrivatePort, 'flush'>
}

export async function flush(ports: FlushPorts, working: Working, bugs: ScribeBugs): Promise<void> {
  if (working.drafts.length === 0) return
  const isNaming = working.drafts.some((draft) => draft.names.length > 0)
  const namesLast = bugs.namesPrivateTextFirst === true
  if (isNaming && !namesLast) await ports.privateFile.flush()
  const entries = working.drafts.map((draft) => draft.entry)
  await ports.journal.append(entries, dayLabelOf(working.board))
  if (isNaming && namesLast) await ports.privateFile.flush()
}

/** Which day's file the records go to: the room's own day, not the machine's. */
function dayLabelOf(board: Board): string {
  const day = board.days.at(-1)
  assert(day !== undefined, 'a room is founded with its first day')
  return day.date
}
