// What stands in the secrets file, and the limits of it. Nothing in it opens anything by itself: of
// tokens, PINs and codes there are hashes alone. Never in a journal, a board, a log or an export.

import { z } from 'zod'
import { dayMs, hourMs, minuteMs, secondMs } from '../../shared/base/values.ts'
import { peopleMax } from '../../shared/board/constants.ts'
import { instant, personId, roomId } from '../../shared/board/parts.ts'
import { screensMax } from '../../shared/wire/limits.ts'

export const deviceKinds = ['hand', 'wall', 'desk', 'station'] as const
export type DeviceKind = (typeof deviceKinds)[number]

/** Devices of one room; a new one takes the place of one that was silent for `silentMs`. */
export const devicesPerRoomMax = screensMax
export const silentMs = 7 * dayMs
/** Codes that wait to be used, over all rooms; one more takes the place of the oldest. */
export const codesMax = 100
export const codeLifeMs = 10 * minuteMs
/** Longer than any shift: a tablet left signed in over night asks for the PIN in the morning. */
export const signedInMaxMs = 16 * hourMs
/** So long after signing out an outbox may still bring what somebody did: a week offline, and a day. */
export const mayReportMs = 8 * dayMs

export const wrongPinsToLock = 5
export const firstLockMs = 30 * secondMs
export const lockMaxMs = 15 * minuteMs
export const wrongPinsToUnpair = 20

const hexOf = (bytes: number) => z.string().regex(new RegExp(`^[0-9a-f]{${2 * bytes}}$`))
const count = z.int().min(0)

const signIn = z.strictObject({
  person: personId,
  signedInAtMs: instant,
  /** Null while signed in. */
  signedOutAtMs: instant.nullable(),
})
export type SignIn = z.infer<typeof signIn>

const device = z.strictObject({
  id: z.string().regex(/^d[1-9]\d{0,8}$/),
  room: roomId,
  kind: z.enum(deviceKinds),
  tokenHash: hexOf(32),
  pairedAtMs: instant,
  lastSeenAtMs: instant,
  /** Wrong PINs and codes since the last right one. */
  wrongRunning: count,
  people: z.array(signIn).max(peopleMax),
})
export type Device = z.infer<typeof device>

const pin = z.strictObject({
  room: roomId,
  person: personId,
  salt: hexOf(16),
  hash: hexOf(32),
  wrongRunning: count,
  lockedUntilMs: instant,
})
export type Pin = z.infer<typeof pin>

/** What a code is good for, once: a person chooses their PIN. Pairing a device will be another. */
const purpose = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('pin'), person: personId }),
])

const code = z.strictObject({ room: roomId, hash: hexOf(32), purpose, expiresAtMs: instant })
export type Code = z.infer<typeof code>

const secrets = z.strictObject({
  format: z.literal(1),
  /** Goes into every hash of a PIN or a code, so that a copied list of hashes alone tells nothing. */
  pepper: hexOf(32),
  /** Numbers of devices are never given twice: a lane is named after its device. */
  lastDeviceNo: count,
  devices: z.array(device),
  pins: z.array(pin),
  codes: z.array(code).max(codesMax),
})
export type SecretsData = z.infer<typeof secrets>

export const parseSecrets = (raw: unknown): SecretsData => secrets.parse(raw)

export const emptySecrets = (pepper: string): SecretsData => ({
  format: 1,
  pepper,
  lastDeviceNo: 0,
  devices: [],
  pins: [],
  codes: [],
})
