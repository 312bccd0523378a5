// The seal: a JSON object that says itself whether it is whole.

import { crc32 } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openSeal, seal } from '../../../server/disk/seal.ts'

describe('a sealed object', () => {
  it('is still JSON, with the checksum as its last field', () => {
    expect(JSON.parse(seal('{"a":1}'))).toEqual({
      a: 1,
      crc: expect.stringMatching(/^[0-9a-f]{8}$/),
    })
  })

  it('uses the CRC-32 of zip and Ethernet', () => {
    // The published check value of that sum over the nine digits: Koopman and others' CRC catalogues
    // list CRC-32/ISO-HDLC with check=0xcbf43926.
    expect(crc32('123456789').toString(16)).toBe('cbf43926')
  })

  it('opens to the text it was made of, whatever that holds', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue(), { minKeys: 1 }), (value) => {
        const text = JSON.stringify(value)
        expect(openSeal(Buffer.from(seal(text)))?.toString()).toBe(text)
      }),
    )
  })

  it('does not open when any one byte is another, or any are missing at the end', () => {
    const whole = Buffer.from(seal('{"say":"häh","n":[1,2]}'))
    for (let at = 0; at < whole.length; at += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        const flipped = Buffer.from(whole)
        flipped[at] = (flipped[at] ?? 0) ^ (1 << bit)
        expect(openSeal(flipped)).toBeNull()
      }
      expect(openSeal(whole.subarray(0, at))).toBeNull()
    }
  })
})
