// The real link: one WebSocket through socket.io for each attempt. socket.io neither reconnects nor keeps
// anything to send later, because the session does both and must know; a frame travels as JSON text
// inside the one event, as on the server's side. Runs in a browser and in Node.

import { io, type Socket } from 'socket.io-client'
import type { FromScreen, FromServer } from '../../shared/wire/frames.ts'
import { frameEvent } from '../../shared/wire/limits.ts'
import type { Link, LinkHandlers } from './ports.ts'

export type SocketAddress = {
  /** `http://127.0.0.1:4000`; a page leaves it out and gets its own origin. */
  readonly origin?: string
  /** The path the server's engine answers on; socket.io's own where left out. */
  readonly path?: string
  /** Sent with the handshake. */
  readonly auth?: Readonly<Record<string, string>>
}

export class SocketLink implements Link {
  readonly #address: SocketAddress
  #socket: Socket | null = null

  constructor(address: SocketAddress = {}) {
    this.#address = address
  }

  connect(handlers: LinkHandlers): void {
    this.close()
    const { origin, path, auth } = this.#address
    const socket = io(origin ?? '', {
      transports: ['websocket'],
      reconnection: false,
      forceNew: true,
      ...(path === undefined ? {} : { path }),
      ...(auth === undefined ? {} : { auth: { ...auth } }),
    })
    this.#socket = socket
    const closed = () => {
      // Taken off first, so that an attempt has one end.
      if (this.#socket !== socket) return
      this.close()
      handlers.closed()
    }
    socket.once('connect', () => handlers.opened())
    socket.once('connect_error', closed)
    socket.once('disconnect', closed)
    // Closed between the handshake's two halves, as by a server that is going: only the engine hears it.
    socket.io.engine.once('close', closed)
    socket.on(frameEvent, (text: unknown) => {
      const frame = readFrame(text)
      if (frame === null) closed()
      else handlers.frame(frame)
    })
  }

  send(frame: FromScreen): void {
    // A socket that is not connected would keep it and send it at a time nobody expects.
    if (this.#socket?.connected) this.#socket.emit(frameEvent, JSON.stringify(frame))
  }

  close(): void {
    const socket = this.#socket
    this.#socket = null
    socket?.off()
    socket?.disconnect()
  }
}

/** Null for what this server would never send; its frames are trusted once they are text in JSON. */
function readFrame(text: unknown): FromServer | null {
  if (typeof text !== 'string') return null
  try {
    return JSON.parse(text)
  } catch (error) {
    if (error instanceof SyntaxError) return null
    throw error
  }
}
