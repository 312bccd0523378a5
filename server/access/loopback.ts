// Whether a request was made on this very machine. Read from the connection itself, never from a header
// a caller can write.

import type { IncomingMessage } from 'node:http'

const loopbackAddress = /^(::ffff:)?127\.\d{1,3}\.\d{1,3}\.\d{1,3}$|^::1$/

/** Headers a proxy adds: behind one on this machine, every caller's address would be this machine's. */
const proxyHeaders = ['forwarded', 'x-forwarded-for', 'x-real-ip', 'via'] as const

export function isFromThisMachine(request: IncomingMessage): boolean {
  if (proxyHeaders.some((name) => request.headers[name] !== undefined)) return false
  return loopbackAddress.test(request.socket.remoteAddress ?? '')
}
