// What one room tells its screens: one text for all of them, and nobody who does not keep up.

import { describe, expect, it } from 'vitest'
import type { RoomToWatch, ScreenSocket } from '../../../server/gateway/ports.ts'
import { RoomScreens } from '../../../server/gateway/roomScreens.ts'
import { emptyBoard } from '../../../shared/board/state.ts'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { heartbeatMs } from '../../../shared/wire/limits.ts'
import { FakeTimers } from '../../support/fakeTimers.ts'

class FakeSocket implements ScreenSocket {
  readonly rooms: string[] = []
  readonly sent: string[] = []
  unsent = 0
  isClosed = false

  send(text: string): void {
    this.sent.push(text)
  }

  join(room: string): void {
    this.rooms.push(room)
  }

  unsentCount(): number {
    return this.unsent
  }

  close(): void {
    this.isClosed = true
  }
}

function roomOf(told: ((record: RecordFrame) => void)[]): RoomToWatch {
  return {
    ...{ id: 'larch', epoch: 1, speed: 1, durable: { version: 0, board: emptyBoard } },
    ...{ nowMs: () => 0, hash: () => 7, house: () => [], names: () => ({}) },
    ...{ recordsAfter: () => null, lastRecords: () => [] },
    subscribe: (tell) => {
      told.push(tell)
      return () => told.splice(told.indexOf(tell), 1)
    },
  }
}

const record: RecordFrame = {
  ...{ type: 'record', version: 1, atMs: 0, cause: { type: 'clock' }, by: null, events: [] },
}

function open() {
  const told: ((record: RecordFrame) => void)[] = []
  const fanned: string[] = []
  const timers = new FakeTimers()
  const fanout = (room: string, text: string) => fanned.push(`${room} ${text}`)
  const screens = new RoomScreens(roomOf(told), { fanout, timers })
  screens.start()
  return { told, fanned, timers, screens }
}

describe('the screens of a room', () => {
  it('get one text for each record, made once', () => {
    const { told, fanned, screens } = open()
    const sockets = [new FakeSocket(), new FakeSocket()]
    for (const socket of sockets) screens.admit(socket, null)
    for (const tell of told) tell(record)
    expect(fanned).toEqual([`larch ${JSON.stringify(record)}`])
    expect(sockets.map(({ rooms }) => rooms)).toEqual([['larch'], ['larch']])
  })

  it('are cut off one by one when they stop reading, and the others go on', () => {
    const { told, screens } = open()
    const reading = new FakeSocket()
    const stalled = new FakeSocket()
    for (const socket of [reading, stalled]) screens.admit(socket, null)
    reading.unsent = 256
    stalled.unsent = 257
    for (const tell of told) tell(record)
    expect([reading.isClosed, stalled.isClosed]).toEqual([false, true])
  })

  it('are no more told anything once the room is closed, and their timers are gone', async () => {
    const { told, fanned, timers, screens } = open()
    const socket = new FakeSocket()
    screens.admit(socket, null)
    await timers.pass(heartbeatMs)
    screens.stop()
    expect(socket.isClosed).toBe(true)
    expect([told.length, timers.alarmCount]).toEqual([0, 0])
    await timers.pass(10 * heartbeatMs)
    expect(fanned).toHaveLength(1)
  })

  it('of one device all hear who is signed in on it, and are closed together', () => {
    const { screens } = open()
    const [mine, other] = [new FakeSocket(), new FakeSocket()]
    screens.admit(mine, 'd1')
    screens.admit(other, 'd2')
    screens.tellDevice('d1', { type: 'signedIn', people: [] })
    expect([mine.sent.length, other.sent.length]).toEqual([1, 0])
    screens.closeDevice('d1')
    expect([mine.isClosed, other.isClosed]).toEqual([true, false])
  })
})
