// What a simulated person is to their own work: a device with a session, what its screen shows, and the
// few things one can do with it.

import type { ReportWhen, Session } from '../../client/session/session.ts'
import type { SessionSnapshot } from '../../client/session/sessionSnapshot.ts'
import type { PersonId } from '../../shared/base/values.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import type { Board, Person as OnBoard } from '../../shared/board/state.ts'
import type { Chance } from './chance.ts'
import type { Handheld } from './device.ts'
import type { EventQueue } from './eventQueue.ts'

export type PersonWorld = {
  readonly queue: EventQueue
  readonly chance: Chance
  /** Minutes since midnight, as it truly is. */
  readonly minuteOfDay: () => number
  /** No new work is begun any more; what is in hand is finished. */
  readonly isQuiet: () => boolean
}

export type Sight = {
  readonly session: Session
  readonly snapshot: SessionSnapshot
  readonly board: Board
  readonly me: OnBoard
  readonly nowMs: number
}

export interface Worker {
  readonly id: PersonId
  readonly device: Handheld
  readonly world: PersonWorld
  /** Asks, and says whether it was granted; never says so when the page has gone meanwhile. */
  ask(sight: Sight, body: CommandOf<AskType>): Promise<boolean>
  /** Writes it down; what the device does not take is tried again at a later look. */
  report(body: CommandOf<ReportType>, when?: ReportWhen): void
  /** Runs after so long, whatever becomes of the device. */
  later(delayMs: number, what: string, run: () => void): void
  /** What the screen shows now; null while it shows nothing, or not this person. */
  sight(): Sight | null
}
