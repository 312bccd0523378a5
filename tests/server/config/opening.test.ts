// The small pieces a start is made of: the port that is bound first, what is closed in reverse, and
// the slow look through old days.

import { connect } from 'node:net'
import { describe, expect, it } from 'vitest'
import { Closers } from '../../../server/config/closers.ts'
import { listen } from '../../../server/config/listening.ts'
import { scrubNowAndThen } from '../../../server/config/scrubbing.ts'
import { dayMs, minuteMs } from '../../../shared/base/values.ts'
import { FakeTimers } from '../../support/fakeTimers.ts'
import { keptLog } from '../quietLog.ts'

describe('the port', () => {
  it('is on this machine alone, and asks whoever comes early to wait', async () => {
    const listening = await listen(0)
    expect(listening.server.address()).toMatchObject({ address: '127.0.0.1' })
    const early = await fetch(`http://127.0.0.1:${listening.port}/health`)
    expect([early.status, await early.text()]).toEqual([503, 'The rooms are being opened.\n'])
    // A page opened too early, as by a wall's own machine at power on, asks again by itself.
    expect(Number(early.headers.get('refresh'))).toBeGreaterThan(0)
    listening.serve((_request, response) => response.end('open'))
    expect(await (await fetch(`http://127.0.0.1:${listening.port}/`)).text()).toBe('open')
    await listening.close()
  })

  it('is given up at once, whoever still holds a connection', async () => {
    const listening = await listen(0)
    const stalled = connect(listening.port, '127.0.0.1')
    await new Promise((connected) => stalled.once('connect', connected))
    const ended = new Promise((closed) => stalled.once('close', closed))
    await listening.close()
    await ended
  })
})

describe('what was opened', () => {
  it('is closed in reverse, all of it, and the first failure is told', async () => {
    const closed: string[] = []
    const closers = new Closers()
    closers.add(() => closed.push('lock'))
    closers.add(async () => {
      throw new Error('room')
    })
    closers.add(() => closed.push('sockets'))
    await expect(closers.close()).rejects.toThrow('room')
    expect(closed).toEqual(['sockets', 'lock'])
    await closers.close()
    expect(closed).toHaveLength(2)
  })
})

describe('looking through old days', () => {
  it('begins a minute after the start, is done anew each day, and says what it found', async () => {
    const timers = new FakeTimers()
    const { log, lines } = keptLog()
    let runs = 0
    const scrub = async () => {
      runs += 1
      if (runs === 2) throw new Error('EIO')
      return runs === 1 ? ['a.journal, line 2: a record is damaged'] : []
    }
    const stop = scrubNowAndThen({ id: 'larch', scrub }, timers, log)
    await timers.pass(minuteMs)
    expect(lines.map(({ what }) => what)).toEqual(['damage was found in an old day'])
    await timers.pass(dayMs)
    expect(lines.at(-1)?.what).toBe('the old days could not be looked through')
    stop()
    await timers.pass(2 * dayMs)
    expect([runs, timers.alarmCount]).toEqual([2, 0])
  })
})
