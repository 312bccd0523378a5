// The real link, over real sockets on this machine, against a socket.io server as ours is set up.

import { createServer, type Server as HttpServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { Server, type Socket } from 'socket.io'
import { afterEach, describe, expect, it } from 'vitest'
import { WebSocketServer } from 'ws'
import { SocketLink } from '../../client/session/socketLink.ts'
import type { FromServer } from '../../shared/wire/frames.ts'
import { frameEvent } from '../../shared/wire/limits.ts'
import { record } from './device.ts'

const path = '/live'
const hello = {
  type: 'hello',
  protocol: 1,
  room: 'meadow',
  screen: 'hand',
  epoch: 0,
  version: 0,
} as const

/** By then socket.io ends an attempt of itself; whoever waits for that has not heard the close. */
const socketIoGivesUpMs = 20_000

/** Values as they come, each for whoever asks next. */
class Line<T> {
  readonly #come: T[] = []
  readonly #asking: ((value: T) => void)[] = []

  put(value: T): void {
    const asking = this.#asking.shift()
    if (asking === undefined) this.#come.push(value)
    else asking(value)
  }

  next(): Promise<T> {
    const value = this.#come.shift()
    return value === undefined
      ? new Promise((resolve) => this.#asking.push(resolve))
      : Promise.resolve(value)
  }

  get left(): readonly T[] {
    return this.#come
  }
}

const ends: (() => unknown)[] = []
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end()
})

async function serve(port = 0) {
  const http: HttpServer = createServer()
  const server = new Server(http, { path, transports: ['websocket'], serveClient: false })
  const sockets = new Line<Socket>()
  server.on('connection', (socket) => sockets.put(socket))
  await new Promise<void>((resolve) => http.listen(port, '127.0.0.1', resolve))
  const close = () => server.close()
  ends.push(close)
  const address = http.address() as AddressInfo
  return { sockets, close, origin: `http://127.0.0.1:${address.port}` }
}

function linked(origin: string) {
  const link = new SocketLink({ origin, path, auth: { page: 'hand' } })
  const told = new Line<string>()
  const frames = new Line<FromServer>()
  const connect = () =>
    link.connect({
      opened: () => told.put('opened'),
      frame: (frame) => frames.put(frame),
      closed: () => told.put('closed'),
    })
  connect()
  ends.push(() => link.close())
  return { link, told, frames, connect }
}

describe('the socket link', () => {
  it('opens over a WebSocket alone, with what the handshake is to carry', async () => {
    const { sockets, origin } = await serve()
    const { told } = linked(origin)
    expect(await told.next()).toBe('opened')
    const socket = await sockets.next()
    expect(socket.conn.transport.name).toBe('websocket')
    expect(socket.handshake.auth).toEqual({ page: 'hand' })
  })

  it('carries frames both ways as text in the one event', async () => {
    const { sockets, origin } = await serve()
    const { link, told, frames } = linked(origin)
    await told.next()
    const socket = await sockets.next()
    const came = new Promise((resolve) => socket.on(frameEvent, resolve))
    link.send(hello)
    expect(JSON.parse(String(await came))).toEqual(hello)
    socket.emit(frameEvent, JSON.stringify(record(1)))
    expect(await frames.next()).toEqual(record(1))
  })

  it('says that it is closed, once, when the server goes, and opens again only when told', async () => {
    const { close, origin } = await serve()
    const { link, told, connect } = linked(origin)
    await told.next()
    await close()
    expect(await told.next()).toBe('closed')
    link.send(hello)
    expect(told.left).toEqual([])
    const again = await serve(Number(new URL(origin).port))
    connect()
    expect(await told.next()).toBe('opened')
    const socket = await again.sockets.next()
    const came = new Line<string>()
    socket.on(frameEvent, (text: string) => came.put(text))
    link.send({ ...hello, version: 7 })
    // What was sent while closed would have come first.
    expect(JSON.parse(await came.next())).toEqual({ ...hello, version: 7 })
  })

  it('says that it is closed when nobody is there', async () => {
    const { close, origin } = await serve()
    await close()
    const { told } = linked(origin)
    expect(await told.next()).toBe('closed')
  })

  it(
    'says that it is closed when the server takes the socket and goes before it has said hello',
    async () => {
      const server = new WebSocketServer({ host: '127.0.0.1', port: 0 })
      ends.push(() => server.close())
      server.on('connection', (socket) => socket.close(1001))
      await new Promise((resolve) => server.once('listening', resolve))
      const { told } = linked(`http://127.0.0.1:${(server.address() as AddressInfo).port}`)
      expect(await told.next()).toBe('closed')
      expect(told.left).toEqual([])
    },
    socketIoGivesUpMs / 2,
  )

  it('lets the server see at once that it was closed here, and then says no more', async () => {
    const { sockets, origin } = await serve()
    const { link, told } = linked(origin)
    await told.next()
    const socket = await sockets.next()
    const gone = new Promise((resolve) => socket.on('disconnect', resolve))
    link.close()
    await gone
    link.close()
    expect(told.left).toEqual([])
  })

  it('does not open when it is closed while it is trying', async () => {
    const { origin } = await serve()
    const { link, told, connect } = linked(origin)
    link.close()
    connect()
    expect(await told.next()).toBe('opened')
    expect(told.left).toEqual([])
  })

  it('closes on what is no frame at all', async () => {
    const { sockets, origin } = await serve()
    const { told } = linked(origin)
    await told.next()
    const socket = await sockets.next()
    socket.emit(frameEvent, '{half')
    expect(await told.next()).toBe('closed')
  })
})
