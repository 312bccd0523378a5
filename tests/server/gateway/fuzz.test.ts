// A few thousand messages of every kind against a live house: on a stranger's socket, a wall's and a
// paired device's where nobody is signed in. Each gets one named fault or a settled answer, nothing is
// thrown past the edge, and the board is the same at the end.

import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { faultCodes } from '../../../shared/wire/frames.ts'
import { everyCommand } from './commands.data.ts'
import { House, mara, token } from './house.ts'
import { helloOf, type RawScreen } from './rawScreen.ts'

let house: House

beforeEach(async () => {
  house = await House.open()
})

// Closing also throws when the house has complained about anything.
afterEach(() => house.close())

const command = fc
  .record({
    type: fc.constant('command'),
    lane: fc.constantFrom('d1', 'd2', 'd1a', '__proto__'),
    n: fc.constantFrom(-1, 0, 1, 2, 1e9, 2 ** 53),
    by: fc.constantFrom(mara, 'p9', 'constructor'),
    timing: fc.constant({ notedAgoMs: 0, heardAtMs: 0 }),
    body: fc.constantFrom(...everyCommand.filter(({ type }) => type !== 'Withdrawn')),
  })
  .map((frame) => JSON.stringify(frame))

/** Text put into the middle of a good message: broken JSON, extra fields, other values. */
const spliced = fc
  .tuple(command, fc.nat(), fc.nat(12), fc.string({ unit: 'binary', maxLength: 12 }))
  .map(([text, from, cut, insert]) => {
    const at = from % text.length
    return text.slice(0, at) + insert + text.slice(at + cut)
  })

const nasty = fc.constantFrom(
  '{"__proto__":{"type":"hello"}}',
  '{"type":"hello","__proto__":null}',
  '"\\ud800"',
  '\ud800',
  `${'['.repeat(8_000)}${']'.repeat(8_000)}`,
  '{"a":'.repeat(3_000),
  'NaN',
  '-0',
  '1e400',
  'null',
  '',
  '\u0000',
  'x'.repeat(20_000),
)

const message = fc.oneof(
  { weight: 3, arbitrary: spliced },
  { weight: 2, arbitrary: command },
  { weight: 1, arbitrary: nasty },
  { weight: 1, arbitrary: fc.json({ stringUnit: 'binary' }) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary' }) },
)

/** Fewer than the rate lets through, so that every one is read; the clock is moved in between. */
const batchSize = 90

async function bombard(screen: RawScreen, messages: readonly string[]): Promise<void> {
  for (let at = 0; at < messages.length; at += batchSize) {
    const batch = messages.slice(at, at + batchSize)
    for (const text of batch) screen.sendText(text)
    for (const text of batch) {
      const reply = await screen.reply()
      expect(reply.type, text).toBe('fault')
      if (reply.type === 'fault') expect(faultCodes).toContain(reply.code)
      if (reply.type === 'fault') expect(reply.code, text).not.toBe('internal')
    }
    await house.timers.pass(1_000)
  }
}

describe('thousands of messages', () => {
  it.each([
    ['a stranger', null],
    ['a wall', helloOf('wall')],
    ['a device with nobody signed in', helloOf('hand', { token: token('d1') })],
  ])('from %s change nothing', async (_who, hello) => {
    const screen = await house.screen()
    if (hello !== null) {
      screen.send(hello)
      await screen.next('welcome')
    }
    const before = house.standing
    const messages = fc.sample(message, { numRuns: 1_500, seed: 7 })
    // A stranger is let go after ten seconds of a clock that this test moves.
    const rounds = hello === null ? messages.slice(0, batchSize * 9) : messages
    await bombard(screen, rounds)
    expect(house.standing).toEqual(before)
    expect(Object.keys(Object.prototype)).toEqual([])
    if (hello === null) screen.send(helloOf('wall'))
    else await house.timers.pass(2_000)
    await screen.next(hello === null ? 'welcome' : 'beat')
  })
})
