// What the gateway needs of the world: a connected screen, the room it looks at, who may speak on which
// device. `socketServer.ts` gives it socket.io; tests and simulations give it whatever they like.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Answer, Fault, HouseCondition, Names, RecordFrame } from '../../shared/wire/frames.ts'
import type { Taken } from '../scribe/turn.ts'
import type { ServerRecorded, ServerTurn } from '../scribe/waiting.ts'

/** One connection. Sending on one that is gone does nothing. */
export interface ScreenSocket {
  send(text: string): void
  /** From now on it gets what is sent to the whole room. */
  join(room: string): void
  /** Messages handed over that have not left yet; a stalled reader lets them pile up. */
  unsentCount(): number
  /** Ends it at once, without waiting for what is unsent. */
  close(): void
}

/** One text to every screen that joined the room. */
export type Fanout = (room: string, text: string) => void

/** The room as everybody may see it; a wall is given nothing else, so it cannot write. */
export interface RoomToWatch {
  readonly id: string
  readonly epoch: number
  readonly speed: number
  nowMs(): InstantMs
  /** The durable board: nothing newer is ever shown. */
  readonly durable: { readonly version: number; readonly board: Board }
  hash(): number
  house(): readonly HouseCondition[]
  names(): Names
  /** Every record after `version`, or null when there are too many or it is not of this room's past. */
  recordsAfter(version: number): readonly RecordFrame[] | null
  /** The last records, earliest first, at most so many of them. */
  lastRecords(count: number): readonly RecordFrame[]
  /** Calls back with each record as it becomes durable, in order; returns how to stop. */
  subscribe(tell: (record: RecordFrame) => void): () => void
}

export interface RoomToTell extends RoomToWatch {
  /** The last number of this lane that has its answer; 0 for a new one. */
  laneN(lane: string): number
  take(taken: Taken): Promise<Answer | Fault>
  /** Writes what the server itself has to say, as one record. */
  record(turn: ServerTurn): Promise<ServerRecorded>
}

export type PinOutcome =
  | { readonly type: 'right' }
  | { readonly type: 'wrong' }
  | { readonly type: 'locked'; readonly waitMs: LengthMs }
  /** Too many wrong ones: the device must be paired anew. */
  | { readonly type: 'unpaired' }

/** Which device a token belongs to, and who has signed in on it. */
export interface Doorkeeper {
  deviceOf(token: string): string | null
  /** Told of a device that is linked now; false when it is not, or no longer, one of the room's. */
  isStillPaired(device: string): boolean
  signedIn(device: string): readonly PersonId[]
  /** Signed in now, or signed out so lately that an outbox may still bring what they did. */
  mayReport(device: string, person: PersonId): boolean
  signIn(device: string, person: PersonId, pin: string): Promise<PinOutcome>
  redeem(
    device: string,
    person: PersonId,
    secrets: { code: string; pin: string },
  ): Promise<PinOutcome>
  signOut(device: string, person: PersonId): Promise<void>
  /** Digits that let this person choose a PIN, once and soon; an earlier code of theirs ends. */
  issueCode(person: PersonId): Promise<string>
  /** How long such a code is good for. */
  readonly codeLifeMs: LengthMs
}

/** One room and who guards its door. */
export type RoomDoor = { readonly room: RoomToTell; readonly doorkeeper: Doorkeeper }
