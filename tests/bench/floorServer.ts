// The least a server could do for a claim that must not be lost: append a line of the same length as
// ours to a file, flush it, and then write one frame, made beforehand, to every socket. No rules, no
// board, no checks. A process of its own, like the server it is measured beside.
// Use: `floorServer.ts FILE LINE_BYTES FRAME_BYTES`; prints the port it listens on.

import { open } from 'node:fs/promises'
import type { Socket } from 'node:net'
import { WebSocketServer } from 'ws'

const [file = '', lineBytes = '', frameBytes = ''] = process.argv.slice(2)

/** A text frame as a server sends it: final, unmasked, its length in two bytes (RFC 6455 5.2). */
function frameOf(text: string): Buffer {
  const payload = Buffer.from(text)
  const head = Buffer.from([0x81, 126, payload.length >> 8, payload.length & 0xff])
  return Buffer.concat([head, payload])
}

const line = Buffer.from(`${'x'.repeat(Number(lineBytes) - 1)}\n`)
const frame = frameOf('x'.repeat(Number(frameBytes)))
const handle = await open(file, 'a')
const sockets = new Set<Socket>()
const server = new WebSocketServer({ host: '127.0.0.1', port: 0, perMessageDeflate: false })

server.on('connection', (client, request) => {
  const { socket } = request
  socket.setNoDelay(true)
  sockets.add(socket)
  client.on('close', () => sockets.delete(socket))
  client.on('message', async () => {
    await handle.write(line)
    await handle.datasync()
    for (const each of sockets) each.write(frame)
  })
})
server.on('listening', () => {
  const address = server.address()
  if (typeof address === 'object' && address !== null) console.log(address.port)
})
