// A screen that stops reading at the other end of a real connection: it is cut off while what it has
// not read is still bounded, and a screen beside it gets every record.

import { once } from 'node:events'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { WebSocket } from 'ws'
import { type Listening, listen } from '../../../server/config/listening.ts'
import { Gateway } from '../../../server/gateway/gateway.ts'
import type { RoomToTell } from '../../../server/gateway/ports.ts'
import { SocketServer } from '../../../server/gateway/socketServer.ts'
import { emptyBoard } from '../../../shared/board/state.ts'
import type { RecordFrame } from '../../../shared/wire/frames.ts'
import { frameEvent } from '../../../shared/wire/limits.ts'
import { FakeTimers } from '../../support/fakeTimers.ts'
import { quietLog } from '../quietLog.ts'
import { FakeDoorkeeper } from './house.ts'
import { helloOf, RawScreen } from './rawScreen.ts'

/** As long as records can get, so that the machine's own buffers are full after a few hundred of them. */
const longText = 'x'.repeat(60_000)
/** Past every buffer a machine gives one loopback connection, and the limit of ours behind it. */
const recordsMax = 2_000

let listening: Listening
let sockets: SocketServer
let gateway: Gateway
const listeners = new Set<(record: RecordFrame) => void>()
const tell = (record: RecordFrame) => {
  for (const listener of listeners) listener(record)
}

function roomThatTells(): RoomToTell {
  return {
    ...{ id: 'larch', epoch: 1, speed: 1, durable: { version: 0, board: emptyBoard } },
    ...{ nowMs: () => 0, hash: () => 7, house: () => [], names: () => ({}), laneN: () => 0 },
    ...{ recordsAfter: () => null, lastRecords: () => [] },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    take: () => Promise.reject(new Error('nobody writes here')),
    record: () => Promise.reject(new Error('nobody writes here')),
  }
}

beforeEach(async () => {
  listening = await listen(0)
  sockets = new SocketServer(listening.port, 1)
  const door = { room: roomThatTells(), doorkeeper: new FakeDoorkeeper() }
  const timers = new FakeTimers()
  gateway = new Gateway([door], {
    ...{ fanout: sockets.fanout, timers, log: quietLog, linkMs: () => timers.nowMs() },
  })
  gateway.start()
  sockets.attach(listening.server, gateway)
})

afterEach(async () => {
  gateway.stop()
  sockets.end()
  await listening.close()
})

const record = (version: number): RecordFrame => ({
  ...{ type: 'record', version, atMs: 0, cause: { type: 'clock' }, by: null },
  ...{ events: [], names: { x1: { note: longText } } as RecordFrame['names'] & object },
})

/** A wall by the bare protocol, which says hello, is welcomed, and from then on reads nothing. */
async function stalledWall(): Promise<WebSocket> {
  const url = `ws://127.0.0.1:${listening.port}/socket.io/?EIO=4&transport=websocket`
  const socket = new WebSocket(url)
  await once(socket, 'message')
  socket.send('40')
  await once(socket, 'message')
  socket.send(`42${JSON.stringify([frameEvent, JSON.stringify(helloOf('wall'))])}`)
  const [welcome] = await once(socket, 'message')
  expect(String(welcome)).toContain('welcome')
  socket.pause()
  return socket
}

describe('a screen that has stopped reading', () => {
  it('is cut off, and the one beside it gets every record', async () => {
    const stalled = await stalledWall()
    const reading = await new RawScreen(listening.port).opened()
    reading.send(helloOf('wall'))
    await reading.next('welcome')
    expect(sockets.count).toBe(2)
    let version = 0
    while (sockets.count > 1 && version < recordsMax) {
      version += 1
      tell(record(version))
      // The reader keeps up, so that only the other one can be the one that is cut off.
      expect((await reading.next('record')).version).toBe(version)
    }
    expect(sockets.count).toBe(1)
    expect(version).toBeLessThan(recordsMax)
    expect(reading.socket.connected).toBe(true)
    tell(record(version + 1))
    expect((await reading.next('record')).version).toBe(version + 1)
    reading.close()
    stalled.terminate()
  })
})
