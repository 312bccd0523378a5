// The edge: whatever text comes, a checked frame or the code of a fault goes on, and nothing throws.

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readFrame } from '../../../server/gateway/frameText.ts'
import { frameMaxBytes } from '../../../shared/wire/limits.ts'

const malformed = { ok: false, error: { type: 'fault', code: 'malformed' } }
const tooLarge = { ok: false, error: { type: 'fault', code: 'tooLarge' } }

const hello = { type: 'hello', protocol: 1, room: 'larch', screen: 'wall', epoch: 0, version: 0 }
const weighed = {
  type: 'command',
  lane: 'd1',
  n: 3,
  by: 'p2',
  timing: { notedAgoMs: 0, heardAtMs: 5 },
  body: { type: 'Weighed', v: 1, bird: 'b1', massMg: 9_000 },
}

const read = (value: unknown) => readFrame([JSON.stringify(value)])

describe('a frame', () => {
  it('is taken when it is one of the protocol, field for field', () => {
    expect(read(hello)).toEqual({ ok: true, value: hello })
    expect(read(weighed)).toEqual({ ok: true, value: weighed })
  })

  it('may be as long as the limit in bytes, and no longer', () => {
    const padded = (bytes: number) => JSON.stringify(hello).padEnd(bytes)
    expect(readFrame([padded(frameMaxBytes)]).ok).toBe(true)
    expect(readFrame([padded(frameMaxBytes + 1)])).toEqual(tooLarge)
    expect(readFrame(['ä'.repeat(frameMaxBytes / 2 + 1)])).toEqual(tooLarge)
  })

  it('names the command it was, where a fault can still read that', () => {
    expect(read({ ...weighed, by: 'nobody' })).toEqual({
      ok: false,
      error: { type: 'fault', code: 'malformed', lane: 'd1', n: 3 },
    })
  })

  it.each([
    ['no part', []],
    ['two parts', [JSON.stringify(hello), 'more']],
    ['an acknowledgement wanted', [JSON.stringify(hello), () => undefined]],
    ['an object', [hello]],
    ['bytes', [Buffer.from(JSON.stringify(hello))]],
    ['no JSON', ['{']],
    ['nothing', ['']],
    ['NaN', [JSON.stringify(hello).replace(':1', ':NaN')]],
    ['a number no float holds', [JSON.stringify(hello).replace(':1', ':1e999')]],
    ['half a number', [JSON.stringify(hello).replace(':1', ':1.5')]],
    ['a field too many', [JSON.stringify({ ...hello, extra: 1 })]],
    ['a prototype', [JSON.stringify(hello).replace('{', '{"__proto__":{"token":"x"},')]],
    ['a constructor', [JSON.stringify(hello).replace('{', '{"constructor":{"prototype":{}},')]],
    ['a room like a part of an object', [JSON.stringify({ ...hello, room: '__proto__' })]],
    ['an id like a part of an object', [JSON.stringify({ ...weighed, by: 'constructor' })]],
    ['a type nobody knows', [JSON.stringify({ ...hello, type: 'admin' })]],
  ])('is malformed with %s', (_what, parts) => {
    const frame = readFrame(parts)
    expect(frame).toMatchObject(malformed)
    expect(Object.hasOwn(Object.prototype, 'token')).toBe(false)
  })

  it('is malformed when nested as deep as the limit allows', () => {
    const deep = '['.repeat(frameMaxBytes / 2) + ']'.repeat(frameMaxBytes / 2)
    expect(readFrame([deep])).toEqual(malformed)
    const object = '{"a":'.repeat(2_500)
    expect(readFrame([`${object}1${'}'.repeat(2_500)}`])).toEqual(malformed)
  })
})

/** A good frame with one value somewhere in it swapped for anything. */
const bent = fc
  .tuple(
    fc.constantFrom(hello, weighed),
    fc.nat(20),
    fc.oneof(
      fc.jsonValue({ stringUnit: 'binary' }),
      fc.constantFrom('\ud800', -0, 1e21, '__proto__'),
    ),
  )
  .map(([frame, at, value]) => {
    let seen = 0
    return JSON.stringify(frame, (_key, field) => {
      seen += 1
      return seen === at + 2 ? value : field
    })
  })

const anyMessage = fc.oneof(
  bent,
  fc.json({ stringUnit: 'binary' }),
  fc.string({ unit: 'binary' }),
  fc.jsonValue(),
)

describe('any message at all', () => {
  it('is a frame or a fault, and never an error', () => {
    fc.assert(
      fc.property(anyMessage, (message) => {
        const frame = readFrame([message])
        if (frame.ok) expect(readFrame([JSON.stringify(frame.value)])).toEqual(frame)
        else expect(['malformed', 'tooLarge']).toContain(frame.error.code)
      }),
      { numRuns: 5_000, seed: 20_260_509 },
    )
  })
})
