// Making secrets, and telling whether one is the right one without telling how nearly it was.

import { createHash, createHmac, timingSafeEqual } from 'node:crypto'
import type { Chance } from '../clock/chance.ts'

export const hexOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex')

/** What a device shows to be itself: 32 bytes nobody can guess, so a plain hash keeps them. */
export const newToken = (chance: Chance): string =>
  Buffer.from(chance.bytes(32)).toString('base64url')

export const hashToken = (token: string): string => createHash('sha256').update(token).digest('hex')

/** With the pepper in it: a PIN or a code is short enough to be tried out. */
export const peppered = (pepper: string, secret: string): Buffer =>
  createHmac('sha256', Buffer.from(pepper, 'hex')).update(secret).digest()

const codeDigits = 8

/** Digits, to be read out and tapped. Six bytes over 10^8 favour no code by more than 1 in 10^6. */
export function newCode(chance: Chance): string {
  const number = Buffer.from(chance.bytes(6)).readUIntBE(0, 6)
  return String(number % 10 ** codeDigits).padStart(codeDigits, '0')
}

/** Takes the same time whether the first byte differs, the last, or none. Both are hex of one length. */
export const isSame = (one: string, other: string): boolean =>
  timingSafeEqual(Buffer.from(one, 'hex'), Buffer.from(other, 'hex'))
