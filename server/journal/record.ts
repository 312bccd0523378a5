// One record of the journal: its shape, and its one line on disk. The format is fixed from the first
// day. `prev` is the last field of the body and the seal follows it, so a chain can be checked without
// reading the events; whatever the events are is the caller's affair.
//
//   {"version":7,…,"prev":"<hash of record 6>","hash":"<sha256 of the body>","crc":"<CRC-32>"}⏎
//    `———————————— body, closed with } ————————'

import { createHash } from 'node:crypto'
import { z } from 'zod'
import { assert } from '../../shared/base/control.ts'
import type { InstantMs, PersonId } from '../../shared/base/values.ts'
import { instant, personId, roomId } from '../../shared/board/parts.ts'
import { type Cause, causeSchema } from '../../shared/wire/frames.ts'
import { openSeal, seal } from '../disk/seal.ts'
import type { LineKind } from '../disk/sealedLines.ts'

const hash = z.string().regex(/^[0-9a-f]{64}$/)
const counter = z.int().min(1)

const deviceId = z.string().regex(/^d[1-9][0-9]{0,8}$/)

const body = z.strictObject({
  version: counter,
  epoch: counter,
  room: roomId,
  atMs: instant,
  cause: causeSchema,
  by: personId.nullable(),
  device: deviceId.nullable(),
  events: z.array(z.unknown()),
  prev: hash,
})

/** What the scribe hands in; the journal adds the room and the chain. */
export interface JournalEntry<E> {
  /** One more than the record before; the journal holds the scribe to it. */
  readonly version: number
  /** Raised by a restore from backup, never lowered. */
  readonly epoch: number
  readonly atMs: InstantMs
  readonly cause: Cause
  readonly by: PersonId | null
  readonly device: string | null
  readonly events: readonly E[]
}

export interface JournalRecord<E> extends JournalEntry<E> {
  readonly room: string
  /** The hash of the record before; `zeroHash` for the first. */
  readonly prev: string
}

/** Where a journal ends: its last record, or version 0, epoch 1 and `zeroHash` where it holds none. */
export interface ChainHead {
  readonly version: number
  readonly epoch: number
  readonly hash: string
}

export const zeroHash = '0'.repeat(64)
export const emptyHead: ChainHead = { version: 0, epoch: 1, hash: zeroHash }

/** A record longer than this is a mistake of ours; unbounded, one line could outgrow memory. */
const recordMaxBytes = 1_048_576

/** A line whose checksum, hash and place of `prev` are right; what it says is not read yet. */
export interface SealedRecord {
  readonly body: Buffer
  readonly prev: string
  readonly hash: string
}

const hashOf = (text: Uint8Array): string => createHash('sha256').update(text).digest('hex')

export interface SealedLine {
  /** Without its line feed. */
  readonly line: string
  readonly hash: string
  /** The events as they will be read back. */
  readonly events: readonly unknown[]
}

/** Throws on a record that could not be read back. */
export function sealRecord<E>(record: JournalRecord<E>): SealedLine {
  const { version, epoch, room, atMs, cause, by, device, prev } = record
  const fields = { version, epoch, room, atMs, cause, by, device }
  const text = JSON.stringify({ ...fields, events: record.events, prev })
  const { events } = body.parse(JSON.parse(text))
  const bytes = Buffer.from(text)
  assert(bytes.length <= recordMaxBytes, `record ${version} is ${bytes.length} bytes long`)
  const sum = hashOf(bytes)
  return { line: seal(`${text.slice(0, -1)},"hash":"${sum}"}`), hash: sum, events }
}

const hashEnding = /^,"hash":"([0-9a-f]{64})"\}$/
const hashEndingLength = 75
const prevEnding = /,"prev":"([0-9a-f]{64})"\}$/
const prevEndingLength = 75

function readSealed(line: Uint8Array): SealedRecord | null {
  const opened = openSeal(line)
  if (opened === null || opened.length < hashEndingLength + prevEndingLength) return null
  const cut = opened.length - hashEndingLength
  const said = hashEnding.exec(opened.toString('latin1', cut))?.[1]
  const text = Buffer.concat([opened.subarray(0, cut), Buffer.from('}')])
  const prev = prevEnding.exec(text.toString('latin1', text.length - prevEndingLength))?.[1]
  if (said === undefined || prev === undefined || said !== hashOf(text)) return null
  return { body: text, prev, hash: said }
}

export const recordLine: LineKind<SealedRecord> = { opensWith: '{"version":', read: readSealed }

export type RecordBody = z.infer<typeof body>

/** Null when the body is not of the shape this program knows: it was written by a newer one. */
export function readBody(sealed: SealedRecord): RecordBody | null {
  return body.safeParse(JSON.parse(sealed.body.toString())).data ?? null
}
