// After a failed write or flush nothing more is acknowledged; what is durable can still be read.

import { describe, expect, it } from 'vitest'
import { settled } from '../../support/fakeTimers.ts'
import { addPerson, bench, claimNest, weighed } from './bench.ts'
import { noon, stubBoard } from './stubBrain.ts'

const failing = (lane: string, n: number) => ({ type: 'fault', code: 'journalFailing', lane, n })

describe('a failed flush', () => {
  it('tells everybody who waited that nothing was taken', async () => {
    const { take, journal, frames, scribe } = bench()
    journal.flushes.hold()
    journal.flushes.isFailing = true
    const batch = [take('d1', 1, claimNest(1)), take('d2', 1, claimNest(1))]
    await settled()
    const next = [take('d3', 1, weighed), scribe.record(() => []), scribe.tick()]
    await journal.flushes.release()
    expect(await Promise.all(batch)).toEqual([failing('d1', 1), failing('d2', 1)])
    expect(await Promise.all(next)).toEqual([
      failing('d3', 1),
      { status: 'failed', code: 'journalFailing' },
      undefined,
    ])
    expect(frames).toEqual([])
  })

  it('drops the working board and keeps the durable one', async () => {
    const { take, journal, scribe, lanes } = bench()
    journal.flushes.isFailing = true
    await take('d1', 1, claimNest(1))
    expect(scribe.durable).toEqual({ board: stubBoard, version: 0, lastAtMs: 0 })
    expect(lanes.get('d1')).toBeUndefined()
  })

  it('makes the room read-only at once and for good, though the disk should recover', async () => {
    const { take, journal, failures } = bench()
    journal.flushes.isFailing = true
    await take('d1', 1, weighed)
    journal.flushes.isFailing = false
    expect(await take('d1', 1, weighed)).toEqual(failing('d1', 1))
    expect(await take('d2', 5, weighed)).toEqual(failing('d2', 5))
    expect(journal.flushes.count).toBe(1)
    expect(failures).toEqual([{ type: 'journalFailing', sinceMs: noon }])
  })

  it('stops the clock of the room: no time rule is tried any more', async () => {
    const { take, journal, time } = bench()
    await take('d1', 1, claimNest(1))
    journal.flushes.isFailing = true
    await take('d2', 1, weighed)
    expect(time.alarmCount).toBe(0)
    await time.pass(10 * 60_000)
    expect(journal.flushes.count).toBe(2)
  })

  it('of a private text is as bad: no record is written that would name it', async () => {
    const { take, journal, privateFile, failures } = bench()
    privateFile.flushes.isFailing = true
    expect(await take('d1', 1, addPerson('Ana'))).toEqual(failing('d1', 1))
    expect(journal.flushes.count).toBe(0)
    expect(failures).toHaveLength(1)
  })

  it('is found in the log, without a body', async () => {
    const { take, journal, logged } = bench()
    journal.flushes.isFailing = true
    await take('d1', 1, addPerson('Ana'))
    expect(logged).toHaveLength(1)
    expect(JSON.stringify(logged)).not.toContain('Ana')
  })
})
