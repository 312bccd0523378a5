// socket.io, and nothing of ours beyond turning its sockets into screens. WebSocket only, one namespace,
// one event. What the library offers on top is off: it would deliver at most once or from memory alone,
// and a room resumes by epoch and version instead.

import type { Server as HttpServer, IncomingMessage } from 'node:http'
import { Server, type Socket } from 'socket.io'
import { enginePayloadMaxBytes, frameEvent, screensMax } from '../../shared/wire/limits.ts'
import { mayOpenSocket } from '../access/origins.ts'
import type { Gateway } from './gateway.ts'
import type { Fanout, ScreenSocket } from './ports.ts'

/** Half-open links are found within nine seconds, before a screen says that it is not live. */
const pingIntervalMs = 5_000
const pingTimeoutMs = 4_000
/** Connections that may stand at once beside the screens of full rooms: strangers and the half-gone. */
const strangersMax = 60

type Wire = { [frameEvent]: (text: string) => void }
type WireServer = Server<Record<string, never>, Wire>
type WireSocket = Socket<Record<string, never>, Wire>

export class SocketServer {
  readonly #io: WireServer

  /** `port` is the one this server listens on, and so part of its own origin. */
  constructor(port: number, roomCount: number) {
    const socketsMax = roomCount * screensMax + strangersMax
    this.#io = new Server({
      transports: ['websocket'],
      allowUpgrades: false,
      serveClient: false,
      perMessageDeflate: false,
      httpCompression: false,
      maxHttpBufferSize: enginePayloadMaxBytes,
      pingInterval: pingIntervalMs,
      pingTimeout: pingTimeoutMs,
      allowRequest: (request, decide) => {
        const isAllowed = mayOpenSocket(request.headers.origin, port) && this.count < socketsMax
        decide(null, isAllowed)
      },
    })
  }

  /** Encoded once, for however many have joined. */
  readonly fanout: Fanout = (room, text) => {
    this.#io.to(room).emit(frameEvent, text)
  }

  attach(server: HttpServer, gateway: Gateway): void {
    this.#io.on('connection', (socket) => {
      const screen = gateway.open(screenOf(socket))
      socket.onAny((event: unknown, ...parts: unknown[]) => {
        void screen.receive(event === frameEvent ? parts : [])
      })
      socket.on('disconnect', () => screen.close())
    })
    this.#io.attach(server)
  }

  /** Takes nobody in any more and tells those who are here; does not wait for one that has stalled. */
  end(): void {
    void this.#io.close()
  }

  /** Connections that stand, strangers and all. */
  get count(): number {
    return this.#io.engine.clientsCount
  }
}

/** The library's types hide it; there is no other measure of a reader that has stalled. */
type Unsent = { readonly writeBuffer: readonly unknown[] }

function screenOf(socket: WireSocket): ScreenSocket {
  const request: IncomingMessage = socket.request
  const connection = socket.conn as unknown as Unsent
  return {
    send: (text) => {
      if (socket.connected) socket.emit(frameEvent, text)
    },
    join: (room) => {
      void socket.join(room)
    },
    unsentCount: () => connection.writeBuffer.length,
    // A polite goodbye would wait behind what a stalled reader does not read.
    close: () => request.socket.destroy(),
  }
}
