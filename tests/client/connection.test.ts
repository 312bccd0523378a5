// One link for ever: attempts, waits between them, and what a late or double report does.

import { describe, expect, it } from 'vitest'
import { reconnectBackoff, waitMs } from '../../client/session/backoff.ts'
import { Connection } from '../../client/session/connection.ts'
import type { Link } from '../../client/session/ports.ts'
import { FakeLink } from '../support/fakeLink.ts'
import { FakeTimers } from '../support/fakeTimers.ts'
import { record } from './device.ts'

function begun(link: Link, chance = () => 0.5) {
  const timers = new FakeTimers()
  const told: string[] = []
  const complaints: string[] = []
  const connection = new Connection(
    { link, timers, chance, complain: (what) => complaints.push(what) },
    {
      opened: () => told.push('opened'),
      frame: ({ type }) => told.push(type),
      lost: () => told.push('lost'),
    },
  )
  connection.start()
  return { timers, told, complaints, connection }
}

const hello = {
  type: 'hello',
  protocol: 1,
  room: 'meadow',
  screen: 'wall',
  epoch: 0,
  version: 0,
} as const

describe('the waits between attempts', () => {
  it('double up to five seconds, half of each drawn by chance', () => {
    const waits = (chance: number) =>
      [1, 2, 3, 4, 5, 6, 50].map((failures) => waitMs(reconnectBackoff, failures, () => chance))
    expect(waits(0)).toEqual([125, 250, 500, 1_000, 2_000, 2_500, 2_500])
    expect(waits(0.999_999)).toEqual([250, 500, 1_000, 2_000, 4_000, 5_000, 5_000])
  })
})

describe('a connection', () => {
  it('tries again for ever, never more than five seconds apart', async () => {
    const link = new FakeLink()
    const { timers } = begun(link, () => 0.999)
    for (let attempt = 1; attempt <= 40; attempt += 1) {
      expect(link.attempts).toHaveLength(attempt)
      link.cut()
      await timers.pass(5_000)
    }
  })

  it('gives an attempt up that comes to nothing in ten seconds', async () => {
    const link = new FakeLink()
    const { timers, told } = begun(link)
    await timers.pass(9_999)
    expect(told).toEqual([])
    await timers.pass(1)
    expect(told).toEqual(['lost'])
    await timers.pass(5_000)
    expect(link.attempts).toHaveLength(2)
  })

  it('gives a link up that opens and then says nothing', async () => {
    const link = new FakeLink()
    const { timers, told } = begun(link)
    link.open()
    await timers.pass(10_000)
    expect(told).toEqual(['opened', 'lost'])
  })

  it('keeps a link for as long as it is heard', async () => {
    const link = new FakeLink()
    const { timers, told, connection } = begun(link)
    link.open()
    for (let beat = 0; beat < 20; beat += 1) {
      await timers.pass(9_000)
      connection.heard()
    }
    expect(told).toEqual(['opened'])
  })

  it('begins with the shortest wait again once a link has proved good', async () => {
    const link = new FakeLink()
    const { timers, connection } = begun(link, () => 0)
    for (let attempt = 0; attempt < 8; attempt += 1) {
      link.cut()
      await timers.pass(5_000)
    }
    link.open()
    connection.steady()
    link.cut()
    const attempts = link.attempts.length
    await timers.pass(125)
    expect(link.attempts).toHaveLength(attempts + 1)
  })

  it('sends nothing, and keeps nothing to send later, while it is not open', async () => {
    const link = new FakeLink()
    const { timers, connection, complaints } = begun(link)
    connection.send(hello)
    link.open()
    link.cut()
    connection.send(hello)
    await timers.pass(5_000)
    connection.send(hello)
    link.open()
    expect(link.sent).toEqual([])
    expect(complaints).toEqual([])
  })

  it('counts a link that closes twice as lost once', async () => {
    const link = new FakeLink()
    const { timers, told } = begun(link)
    link.open()
    const [first] = link.attempts
    first?.closed()
    first?.closed()
    expect(told).toEqual(['opened', 'lost'])
    await timers.pass(5_000)
    first?.closed()
    expect(link.attempts).toHaveLength(2)
    expect(told).toEqual(['opened', 'lost'])
  })

  it('opens once, however often it is told so', () => {
    const link = new FakeLink()
    const { told } = begun(link)
    link.open()
    link.open()
    expect(told).toEqual(['opened'])
  })

  it('does not hear an older attempt', async () => {
    const link = new FakeLink()
    const { timers, told } = begun(link)
    link.open()
    const [first] = link.attempts
    link.cut()
    await timers.pass(5_000)
    first?.opened()
    first?.frame(record(1))
    expect(told).toEqual(['opened', 'lost'])
  })

  it('stops for good', async () => {
    const link = new FakeLink()
    const { timers, connection } = begun(link)
    link.cut()
    connection.stop()
    await timers.pass(60_000)
    expect(link.attempts).toHaveLength(1)
    expect(timers.alarmCount).toBe(0)
  })

  it('takes a link that throws for one that is lost', async () => {
    const link: Link = {
      connect() {
        throw new Error('no network')
      },
      send: () => undefined,
      close() {
        throw new Error('not open')
      },
    }
    const { timers, told, complaints } = begun(link)
    await timers.pass(1_000)
    expect(told.length).toBeGreaterThan(1)
    expect(new Set(told)).toEqual(new Set(['lost']))
    expect(complaints).toContain('an attempt to connect failed')
  })
})
