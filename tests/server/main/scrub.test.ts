// A whole house whose old days are looked through in the background: damage that no start comes across
// is found, named on /health and told to every screen, and the room goes on.

import { readFileSync, writeFileSync } from 'node:fs'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { HouseTime, OpenHouse } from '../../../server/openHouse.ts'
import { dayMs, hourMs, minuteMs } from '../../../shared/base/values.ts'
import { FakeTimers } from '../../support/fakeTimers.ts'
import { HouseOnDisk } from './houseOnDisk.ts'

/** A real disk and a real port: what takes a moment alone takes longer beside seven others. */
vi.setConfig({ testTimeout: 60_000 })

let bench: HouseOnDisk

beforeEach(() => {
  bench = new HouseOnDisk()
})

afterEach(() => bench.end())

const noonMs = Date.UTC(2026, 4, 9, 12)

/** A machine on which nothing happens until the test says that time has passed. */
function machineAt(wallMs: number): { readonly timers: FakeTimers; readonly time: HouseTime } {
  const timers = new FakeTimers(0, wallMs)
  const clockSource = { wallMs: () => timers.wallMs(), monotonicMs: () => timers.nowMs() }
  return { timers, time: { timers, clockSource } }
}

const health = async ({ port }: OpenHouse) =>
  (await (await fetch(`http://127.0.0.1:${port}/health`)).json()) as {
    readonly status: string
    readonly damaged: readonly string[]
  }

/** A room that was served on three days, so that two of its days' files are old. */
async function threeDays(): Promise<readonly string[]> {
  for (const day of [0, 1, 2]) {
    const options = day === 0 ? { newRoom: 'Larch' } : {}
    await bench.open(options, machineAt(noonMs + day * dayMs).time)
    await bench.shut()
  }
  return bench.journals('larch')
}

describe('an old day that is damaged', () => {
  it('is found by a house that runs, named on /health, and the room goes on', async () => {
    const [oldest = '', ...others] = await threeDays()
    expect(others.length).toBeGreaterThanOrEqual(1)
    const bytes = readFileSync(oldest)
    bytes[100] = (bytes[100] ?? 0) ^ 1
    writeFileSync(oldest, bytes)
    const { timers, time } = machineAt(noonMs + 2 * dayMs + hourMs)
    const house = await bench.open({}, time)
    expect(await health(house)).toMatchObject({ status: 'ok', damaged: [] })
    await timers.pass(minuteMs)
    // Between two files the scrub pauses, and reads them from a real disk meanwhile.
    const damaged = async () => {
      await timers.pass(minuteMs)
      return (await health(house)).damaged
    }
    await expect.poll(damaged, { timeout: 30_000 }).toHaveLength(1)
    const [named = ''] = await damaged()
    expect(oldest.endsWith(named)).toBe(true)
    expect((await health(house)).status).toBe('ok')
    const { session } = await bench.sessionOn(house, 'larch')
    expect(session.snapshot().liveness.status).toBe('live')
    const found = bench.log.lines.filter(({ what }) => what.includes('damage was found'))
    expect(found.map(({ fields }) => fields.room)).toContain('larch')
  })

  it('is not looked for any more once the house is closed', async () => {
    await threeDays()
    const { timers, time } = machineAt(noonMs + 2 * dayMs + hourMs)
    await bench.open({}, time)
    await bench.shut()
    await timers.pass(2 * dayMs)
    expect(timers.alarmCount).toBe(0)
    expect(bench.log.lines).toEqual([])
  })
})
