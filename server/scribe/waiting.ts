// What waits for the scribe's next turn: commands of people, records of the server itself, and the
// wish to see whether time has made anything due. Each can be told that nothing came of it.

import type { InstantMs, LengthMs } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Answer, Fault, FaultCode } from '../../shared/wire/frames.ts'
import type { PrivateText } from './ports.ts'
import type { Arrived, Taken } from './turn.ts'

/** What the server knows when its own turn comes. */
export type ServerMoment = {
  readonly board: Board
  readonly nowMs: InstantMs
  /** Civil time, by the machine's wall clock, minus the room's clock. */
  readonly civilOffsetMs: LengthMs
  /** Puts a name or a note into the private file, on disk before the record that names it. */
  readonly keep: (text: PrivateText) => PrivateRef
}

/** What the server itself has to write, if anything. May throw: then nothing is written. */
export type ServerTurn = (moment: ServerMoment) => readonly RoomEvent[]

/** At which version it is durable, or why it is not. */
export type ServerRecorded =
  | { readonly status: 'recorded'; readonly version: number }
  | { readonly status: 'failed'; readonly code: FaultCode }

export type Waiting =
  | {
      readonly type: 'command'
      readonly arrived: Arrived
      readonly reply: (answer: Answer | Fault) => void
    }
  | {
      readonly type: 'server'
      readonly turn: ServerTurn
      readonly reply: (outcome: ServerRecorded) => void
    }
  | { readonly type: 'clock'; readonly reply: () => void }

/** Every screen of a full room may have one in flight; beyond it people wait at their own end. */
export const waitingMax = 500
/** Commands that share one flush; more and the first of them would wait too long for its answer. */
export const batchMax = 100

export const faultFor = ({ lane, n }: Pick<Taken, 'lane' | 'n'>, code: FaultCode): Fault => ({
  type: 'fault',
  code,
  lane,
  n,
})

/** Tells whoever waits that this was not taken. */
export function turnAway(waiting: Waiting, code: FaultCode): void {
  if (waiting.type === 'command') waiting.reply(faultFor(waiting.arrived, code))
  else if (waiting.type === 'server') waiting.reply({ status: 'failed', code })
  else waiting.reply()
}
