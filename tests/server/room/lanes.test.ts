// A command has one effect and one answer, whatever happens to the server between two tries.

import { describe, expect, it } from 'vitest'
import { claim, RoomOnDisk, typesIn, weigh } from './roomOnDisk.ts'

const d2 = (n: number) => ({ lane: 'd2', n })

describe('a command repeated after a restart', () => {
  it.each(['closed', 'killed'])('of a server that was %s gets its first answer', async (how) => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    const first = await house.sayAs(before, d2(1), weigh(1))
    await house.sayAs(before, { lane: 'd3', n: 1 }, weigh(2))
    if (how === 'closed') await before.close()
    house.kill()
    const after = await house.open()
    expect(await house.sayAs(after, d2(1), weigh(1))).toEqual(first)
    expect(typesIn(after.recordsAfter(before.durable.version))).toEqual(['RoomOpened'])
    expect(after.laneN('d2')).toBe(1)
  })

  it('gets its first refusal where a snapshot kept it', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    await house.sayAs(before, d2(1), claim(1))
    const refused = await house.sayAs(before, { lane: 'd3', n: 1 }, claim(1))
    expect(refused).toMatchObject({ status: 'rejected', why: { code: 'NestTaken' } })
    await before.close()
    house.kill()
    const after = await house.open()
    expect(await house.sayAs(after, { lane: 'd3', n: 1 }, claim(1))).toEqual(refused)
  })

  it('is decided again where it was refused and the refusal is lost', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    await house.sayAs(before, d2(1), claim(1))
    await house.sayAs(before, { lane: 'd3', n: 1 }, claim(1))
    house.kill()
    const after = await house.open()
    expect(after.laneN('d3')).toBe(0)
    const gap = { type: 'fault', code: 'laneGap', expected: 1 }
    expect(await house.sayAs(after, { lane: 'd3', n: 2 }, weigh(1))).toMatchObject(gap)
    const withdrawn = { type: 'Withdrawn', v: 1 } as const
    expect(await house.sayAs(after, { lane: 'd3', n: 1 }, withdrawn)).toMatchObject({
      status: 'rejected',
      why: { code: 'Withdrawn' },
    })
    expect(await house.sayAs(after, { lane: 'd3', n: 2 }, weigh(1))).toMatchObject({
      status: 'applied',
    })
  })

  it('is found in the journal though neither snapshot nor lane keeps it any more', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded()
    const first = await house.sayAs(before, d2(1), weigh(1))
    for (let n = 2; n <= 20; n += 1) await house.sayAs(before, d2(n), weigh(1))
    await before.close()
    house.kill()
    const after = await house.open()
    expect(await house.sayAs(after, d2(1), weigh(1))).toEqual(first)
  })

  it('has two effects with lanes left out of the snapshot: the planted mistake does harm', async () => {
    const house = new RoomOnDisk()
    const before = await house.founded({ bugs: { leavesLanesOutOfSnapshot: true } })
    await house.sayAs(before, d2(1), weigh(1))
    await before.close()
    house.kill()
    const after = await house.open()
    const answer = await house.sayAs(after, d2(1), weigh(1))
    expect(answer).toMatchObject({ status: 'applied', version: before.durable.version + 2 })
  })
})
