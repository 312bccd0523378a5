// The floor: `floorServer.ts` in its own process, with as many plain WebSockets as there are screens,
// and one more to make the claim. A screen counts when the frame's message event comes.

import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { WebSocket } from 'ws'
import { endsWithUs } from '../faults/children.ts'
import { RollCall, type Side } from './side.ts'

export type FloorSizes = { readonly lineBytes: number; readonly frameBytes: number }

const serverFile = fileURLToPath(new URL('./floorServer.ts', import.meta.url))

export async function floorSide(
  file: string,
  screens: number,
  { lineBytes, frameBytes }: FloorSizes,
): Promise<Side> {
  const words = [file, String(lineBytes), String(frameBytes)]
  const child = spawn(
    process.execPath,
    ['--import', import.meta.resolve('tsx'), serverFile, ...words],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  )
  endsWithUs(child)
  const port = await printedPort(child)
  const sockets = await Promise.all(
    Array.from({ length: screens }, () => connected(`ws://127.0.0.1:${port}`)),
  )
  const claimer = await connected(`ws://127.0.0.1:${port}`)
  let rollCall: RollCall | null = null
  for (const socket of sockets) socket.on('message', () => rollCall?.here())
  // About as long as our own order, whose text is of no account to the floor.
  const order = JSON.stringify({
    type: 'command',
    lane: 'd1',
    n: 1,
    by: 'p1',
    body: 'x'.repeat(100),
  })
  return {
    async claim() {
      rollCall = new RollCall(screens)
      const startedMs = performance.now()
      claimer.send(order)
      await rollCall.everybody
      return performance.now() - startedMs
    },
    async close() {
      for (const socket of [...sockets, claimer]) socket.terminate()
      child.kill('SIGTERM')
      await once(child, 'exit')
    },
  }
}

async function printedPort(child: ChildProcess): Promise<number> {
  if (child.stdout === null) throw new Error('the floor has no output')
  const [printed] = await once(child.stdout.setEncoding('utf8'), 'data')
  return Number(printed)
}

async function connected(address: string): Promise<WebSocket> {
  const socket = new WebSocket(address, { perMessageDeflate: false })
  await once(socket, 'open')
  return socket
}
