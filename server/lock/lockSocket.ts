// A socket held as a lock, and asking who holds one. One that somebody listens at is connected by the
// machine itself, even while its process is too busy to answer, so silence still means that it is held.

import { connect, createServer, type Server } from 'node:net'
import { setTimeout as pause } from 'node:timers/promises'
import { errorCode } from '../disk/realDisk.ts'

/** A living process that says nothing for so long is stopped or very busy; the lock is its own still. */
const answerMaxMs = 1_000

/** A socket that tells its process to whoever asks; null where the path is taken, alive or left over. */
export function holdSocket(path: string): Promise<Server | null> {
  const server = createServer((asking) => {
    asking.on('error', () => asking.destroy())
    asking.setTimeout(answerMaxMs, () => asking.destroy())
    asking.end(String(process.pid))
  })
  return new Promise((resolve, reject) => {
    server.once('error', (error) => {
      const code = errorCode(error)
      if (code === 'EADDRINUSE') resolve(null)
      // Told as the folder's trouble, which it is: the machine's words are those for a network port.
      else reject(Object.assign(new Error(`${path} cannot be made: ${code}`), { code }))
    })
    server.listen(path, () => resolve(server.unref()))
  })
}

/** The machine removes the path with it. */
export function freeSocket(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)))
  })
}

export type Holder =
  | { readonly type: 'held'; readonly process: string }
  /** A socket whose process is gone. */
  | { readonly type: 'leftOver' }
  | { readonly type: 'absent' }

/** A lock that is just being taken refuses as a leftover does, for less than a millisecond. */
const askAgainMs = 25

export async function askHolder(path: string): Promise<Holder> {
  const first = await askOnce(path)
  if (first.type !== 'leftOver') return first
  await pause(askAgainMs)
  return askOnce(path)
}

function askOnce(path: string): Promise<Holder> {
  return new Promise((resolve, reject) => {
    let said = ''
    const asking = connect(path)
    const answer = (holder: Holder) => {
      asking.destroy()
      resolve(holder)
    }
    const held = (process: string) => answer({ type: 'held', process })
    asking.setEncoding('utf8').setTimeout(answerMaxMs)
    asking.on('data', (text: string) => {
      said = (said + text).slice(0, 10)
    })
    asking.on('end', () => held(/^\d+$/.test(said) ? said : 'unknown'))
    asking.on('timeout', () => held('unknown'))
    asking.on('error', (error) => {
      const code = errorCode(error)
      if (code === 'ECONNREFUSED') answer({ type: 'leftOver' })
      else if (code === 'ENOENT') answer({ type: 'absent' })
      else if (code === 'ECONNRESET' || code === 'EAGAIN') held('unknown')
      else reject(error)
    })
  })
}
