// The whole protocol on one page: what a screen may send (checked at the edge) and what the server
// sends (trusted by the screen, so types only). One union each way, one socket event, one version.
//
//   screen                                 server
//   hello {epoch, version, lane}   ──▶
//                                  ◀──    welcome {tail | board, lane's last number}  or  fault
//   command lane.n                 ──▶    (scribe: decide, write, flush)
//                                  ◀──    record  (to every screen of the room)
//                                  ◀──    answer lane.n
//                                  ◀──    beat every 2 s
//   issueCode, recentRecords       ──▶
//                                  ◀──    code, records  (to the asker alone)

import { z } from 'zod'
import type { InstantMs, PersonId, PrivateId } from '../base/values.ts'
import { commandSchema, timingSchema } from '../board/commands.ts'
import type { RoomEvent } from '../board/events.ts'
import { incubatorId, laneId, personId, roomId } from '../board/parts.ts'
import type { Board } from '../board/state.ts'
import type { Rejection } from '../rules/rejection.ts'
import { recordsAskedMax } from './limits.ts'

const frame = <Type extends string, Shape extends z.ZodRawShape>(type: Type, shape: Shape) =>
  z.strictObject({ type: z.literal(type), ...shape })

export const screenKinds = ['wall', 'hand', 'desk'] as const
export type ScreenKind = (typeof screenKinds)[number]

const version = z.int().min(0)

/** The first frame on a link. `epoch` and `version` are 0 for a screen that knows nothing yet. */
const hello = frame('hello', {
  protocol: z.int(),
  room: roomId,
  screen: z.enum(screenKinds),
  /** The device's secret; a wall on its read-only page may come without. */
  token: z.string().min(16).max(128).optional(),
  epoch: version,
  version,
})

/** One numbered order. `by` is who was signed in on the device when it was noted. */
const command = frame('command', {
  lane: laneId,
  n: z.int().min(1),
  by: personId,
  timing: timingSchema,
  body: commandSchema,
})

const signIn = frame('signIn', { person: personId, pin: z.string().regex(/^\d{4,8}$/) })
/** First sign-in of a person: the code a lead was given, and the PIN they choose. */
const redeem = frame('redeem', {
  person: personId,
  code: z.string().regex(/^\d{6,10}$/),
  pin: z.string().regex(/^\d{4,8}$/),
})
const signOut = frame('signOut', { person: personId })
/** For somebody who has no PIN, or forgot it: a permit holder signed in on this device asks. */
const issueCode = frame('issueCode', { person: personId })
/** The room's last records, for a screen that puts them into words. */
const recentRecords = frame('recentRecords', { count: z.int().min(1).max(recordsAskedMax) })

export const fromScreenSchema = z.discriminatedUnion('type', [
  hello,
  command,
  signIn,
  redeem,
  signOut,
  issueCode,
  recentRecords,
])
export type FromScreen = z.infer<typeof fromScreenSchema>
export type CommandFrame = z.infer<typeof command>
export type HelloFrame = z.infer<typeof hello>

export const causeSchema = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('command'), lane: laneId, n: z.int().min(1) }),
  z.strictObject({ type: z.literal('clock') }),
  z.strictObject({ type: z.literal('server') }),
  z.strictObject({ type: z.literal('sensor'), incubator: incubatorId }),
])
export type Cause = z.infer<typeof causeSchema>

/** One journal record as screens get it: the same version, events and time, without chain and crc. */
export type RecordFrame = {
  readonly type: 'record'
  readonly version: number
  readonly atMs: InstantMs
  readonly cause: Cause
  readonly by: PersonId | null
  readonly events: readonly RoomEvent[]
  /** Names and notes that this record is the first to mention. */
  readonly names?: Names
}

/** What a screen may show of the private file, by id. Finders are never among them. */
export type Names = Readonly<Record<PrivateId, { readonly name?: string; readonly note?: string }>>

/** What is wrong with the house itself; it cannot be journalled and so rides in the heartbeat. */
export type HouseCondition =
  | { readonly type: 'journalFailing'; readonly sinceMs: InstantMs }
  | { readonly type: 'clockJumped'; readonly byMs: number }
  | { readonly type: 'damageFound'; readonly file: string }

export type Beat = {
  readonly type: 'beat'
  readonly nowMs: InstantMs
  readonly version: number
  /** Present when the board changed since the last beat. */
  readonly hash?: number
  readonly house: readonly HouseCondition[]
}

export type Welcome = {
  readonly type: 'welcome'
  readonly protocol: number
  readonly epoch: number
  readonly nowMs: InstantMs
  /** How fast the room's clock runs against a real one; 1 but in a demo. */
  readonly speed: number
  readonly device: { readonly id: string; readonly signedIn: readonly PersonId[] } | null
  /** The lane's last number the server has settled; null on a screen that cannot write. */
  readonly laneN: number | null
  readonly names: Names
  readonly state:
    | { readonly type: 'board'; readonly version: number; readonly board: Board }
    | { readonly type: 'tail'; readonly records: readonly RecordFrame[] }
}

export type Answer =
  /** `isSetAside`: kept whole for review, because it could not be applied to the board. */
  | { readonly status: 'applied'; readonly version: number; readonly isSetAside?: true }
  | { readonly status: 'rejected'; readonly why: Rejection }

export type AnswerFrame = {
  readonly type: 'answer'
  readonly lane: string
  readonly n: number
  readonly answer: Answer
}

export const faultCodes = [
  'malformed',
  'tooLarge',
  'protocolOther',
  'roomUnknown',
  'helloFirst',
  'notPaired',
  'notSignedIn',
  'notAllowed',
  'personUnknown',
  'pinWrong',
  'pinLocked',
  'readOnlyScreen',
  'laneNotYours',
  'laneGap',
  'tooMany',
  'busy',
  'journalFailing',
  'internal',
] as const
export type FaultCode = (typeof faultCodes)[number]

/** A message that was not taken; nothing on the board has changed because of it. */
export type Fault = {
  readonly type: 'fault'
  readonly code: FaultCode
  readonly lane?: string
  readonly n?: number
  /** With `laneGap`: the number the server waits for. */
  readonly expected?: number
  /** With `pinLocked`: how long still, in real milliseconds. */
  readonly waitMs?: number
}

export type SignedIn = { readonly type: 'signedIn'; readonly people: readonly PersonId[] }

/** Told once, to the screen that asked; kept nowhere but as a hash. */
export type CodeFrame = {
  readonly type: 'code'
  readonly person: PersonId
  readonly code: string
  /** How long it is good for, in real milliseconds. */
  readonly lifeMs: number
}

/** Earliest first; fewer than were asked for where the room holds no more. */
export type RecordsFrame = { readonly type: 'records'; readonly records: readonly RecordFrame[] }

/** What is told to one screen, or one device, and not to the room. */
export type ToOne = AnswerFrame | Fault | SignedIn | CodeFrame | RecordsFrame
export type FromServer = RecordFrame | Beat | Welcome | ToOne
