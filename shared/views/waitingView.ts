// What a device has noted and the room has not yet saved, said in data: which nest, what was done, and
// when. The records themselves are the outbox's; this only reads them.

import type { InstantMs, LengthMs } from '../base/values.ts'
import type { Command } from '../board/commands.ts'
import type { Board } from '../board/state.ts'
import { type Tally, tallyOf } from './tally.ts'

export type Waiting = {
  readonly id: string
  readonly command: Command
  readonly notedAtMs: InstantMs
}

export type WaitingRow = {
  readonly id: string
  readonly type: Command['type']
  /** The nest it is about; null where it is about none, or about one the board no longer has. */
  readonly label: string | null
  readonly tally: readonly Tally[]
  readonly notedAtMs: InstantMs
}

export type WaitingView = {
  readonly rows: readonly WaitingRow[]
  readonly count: number
  readonly oldestMs: LengthMs
}

function nestOf(board: Board, command: Command): string | null {
  if ('nest' in command && command.nest) return board.nests[command.nest]?.label ?? null
  if (!('bird' in command) || command.bird === undefined) return null
  const bird = board.birds[command.bird]
  return bird ? (board.nests[bird.nest]?.label ?? null) : null
}

/** The waiting records, oldest first, with how old the oldest is on the room's clock. */
export function waitingView(
  board: Board,
  waiting: readonly Waiting[],
  nowMs: InstantMs,
): WaitingView {
  const rows = waiting
    .map(({ id, command, notedAtMs }) => ({
      id,
      type: command.type,
      label: nestOf(board, command),
      tally:
        command.type === 'AnswerBirds'
          ? tallyOf(command.answers.map(({ outcome }) => outcome))
          : [],
      notedAtMs,
    }))
    .sort((a, b) => a.notedAtMs - b.notedAtMs)
  const oldest = rows[0]?.notedAtMs ?? nowMs
  return { rows, count: rows.length, oldestMs: Math.max(0, nowMs - oldest) }
}
