// A checksum written into the JSON object it guards, as its last field, so that a line or a file says
// by itself whether it is whole. Used by the journal, the private file and every file lowdb keeps.
//
//   {"a":1}  ->  {"a":1,"crc":"<8 hex of CRC-32 over everything before ,"crc">"}

import { crc32 } from 'node:zlib'

const opening = ',"crc":"'
const closing = '"}'
const sealLength = opening.length + 8 + closing.length

const sumOf = (bytes: Uint8Array): string => crc32(bytes).toString(16).padStart(8, '0')

/** The text of a JSON object with at least one field, closed with its checksum. */
export function seal(objectText: string): string {
  const body = objectText.slice(0, -1)
  return `${body}${opening}${sumOf(Buffer.from(body))}${closing}`
}

/** The object's text as it was before sealing; null when a byte of it, or of the seal, is not right. */
export function openSeal(bytes: Uint8Array): Buffer | null {
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (whole.length <= sealLength) return null
  const body = whole.subarray(0, -sealLength)
  const isRight = whole.toString('latin1', body.length) === `${opening}${sumOf(body)}${closing}`
  return isRight ? Buffer.concat([body, Buffer.from('}')]) : null
}
