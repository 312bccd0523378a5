// The board with a device's own waiting reports already on it, so that a feeder sees what they just
// noted while it is not yet saved. Only reports are drawn so; an ask waits for its answer. The same rules
// run as on the server; where its answer differs, the confirmed board simply takes over.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Command } from '../board/commands.ts'
import { isAsk } from '../board/rights.ts'
import type { Board } from '../board/state.ts'
import { decide } from '../rules/decide.ts'
import { foldEvents } from '../rules/evolve.ts'

export type Noted = {
  readonly by: PersonId
  readonly command: Command
  readonly notedAtMs: InstantMs
}

/** The confirmed board and these reports on top of it, in the order they were noted. */
export function drawnBoard(board: Board, waiting: readonly Noted[]): Board {
  return waiting.reduce((drawn, { by, command, notedAtMs }) => {
    if (isAsk(command.type) || command.type === 'Withdrawn') return drawn
    // As if it had arrived when it was noted: so it ages on the screen like any other record.
    const times = { nowMs: notedAtMs, notedAtMs, startedAtMs: null }
    const decision = decide(drawn, command, { by, agoMs: 0, isBounded: false, ...times })
    return decision.ok ? foldEvents(drawn, decision.value) : drawn
  }, board)
}
