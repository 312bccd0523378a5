// Whether an order would be refused, asked of the rules themselves before a button is drawn, so that
// there is no second opinion on who may do what. Nothing is changed by asking.

import type { InstantMs, PersonId } from '../base/values.ts'
import type { Command } from '../board/commands.ts'
import type { Board } from '../board/state.ts'
import { decide } from '../rules/decide.ts'
import type { Rejection } from '../rules/rejection.ts'

/** Why the rules would say no to this person now; null when they would not. */
export function wouldRefuse(
  board: Board,
  command: Command,
  of: { readonly person: PersonId; readonly nowMs: InstantMs },
): Rejection | null {
  const { person, nowMs } = of
  const decision = decide(board, command, {
    by: person,
    nowMs,
    agoMs: 0,
    notedAtMs: nowMs,
    startedAtMs: null,
    isBounded: false,
  })
  return decision.ok ? null : decision.error
}
