// The one HTTP server, on this machine only: off it a room needs TLS first. It is bound before any room
// is opened, so that a port in use is said at once; whoever asks meanwhile is told to wait.

import { createServer, type RequestListener, type Server } from 'node:http'
import type { AddressInfo, Socket } from 'node:net'
import { loopbackHost } from '../access/origins.ts'

/** Far above what the screens of a house need; without it a flood of connections fills the memory. */
const connectionsMax = 500

export type Listening = {
  readonly server: Server
  readonly port: number
  /** Answers requests from now on. */
  serve(listener: RequestListener): void
  /** Ends every connection, one that has stalled like any other. */
  close(): Promise<void>
}

/** Nobody stands at a wall to load it anew: a page opened too early asks again by itself. */
const askAgain = { 'retry-after': '1', refresh: '2' }

const starting: RequestListener = (_request, response) => {
  response.writeHead(503, { 'content-type': 'text/plain; charset=utf-8', ...askAgain })
  response.end('The rooms are being opened.\n')
}

/** Rejects with the machine's error where the port cannot be had. */
export async function listen(port: number): Promise<Listening> {
  let current = starting
  const server = createServer((request, response) => current(request, response))
  server.maxConnections = connectionsMax
  const connections = new Set<Socket>()
  server.on('connection', (connection) => {
    connections.add(connection)
    connection.once('close', () => connections.delete(connection))
  })
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, loopbackHost, resolve)
  })
  return {
    server,
    port: (server.address() as AddressInfo).port,
    serve: (listener) => {
      current = listener
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        for (const connection of connections) connection.destroy()
      }),
  }
}
