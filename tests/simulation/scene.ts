// Everything the invariants may look at: the parts of one simulated world, and what its outside has
// seen. An invariant is told of each step, of every death and opening of the server, and of the calm
// after trouble, and answers with a sentence for each thing that may never be.

import type { RoomBrain } from '../../server/room/realBrain.ts'
import type { Room } from '../../server/room/room.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Handheld } from './device.ts'
import type { DurableJournal } from './durableJournal.ts'
import type { EventQueue } from './eventQueue.ts'
import type { Network } from './network.ts'
import type { Reference } from './reference.ts'
import type { Screen } from './screen.ts'
import type { SimulatedServer } from './simulatedServer.ts'
import type { Seen, Witness } from './witness.ts'

export type Scene = {
  readonly queue: EventQueue
  readonly server: SimulatedServer
  readonly network: Network
  readonly handhelds: readonly Handheld[]
  readonly screens: readonly Screen[]
  readonly reference: Reference
  readonly journal: DurableJournal
  readonly witness: Witness
  /** The rules as the server has them, planted bug and all. */
  readonly serverBrain: RoomBrain
  /** The bytes that are not what was written, by file. */
  readonly damagedFiles: () => readonly string[]
}

export type Sentences = readonly string[]
export const nothingWrong: Sentences = []

export interface Invariant {
  /** Its number among the things that may never happen; `round` for what claims and feeds promise. */
  readonly number: number | 'round'
  readonly name: string
  /** It looks at the time too, and so at steps that brought nothing to be seen. */
  readonly isTimed?: true
  /** After every step; `seen` is what it brought. */
  step?(scene: Scene, seen: Seen): Sentences
  /** The server's process has ended, and nobody has touched what its disk kept. */
  died?(scene: Scene): Sentences
  /** A room stands open; the reference has learnt what the disk holds beyond it. */
  opened?(scene: Scene, room: Room): Sentences
  refused?(scene: Scene, error: unknown): Sentences
  /** Trouble has been over for long enough. */
  calm?(scene: Scene): Sentences
}

export const heldOn = (board: Board) =>
  Object.values(board.nests).flatMap((nest) =>
    nest.hands.type === 'held' ? [{ nest, held: nest.hands }] : [],
  )
