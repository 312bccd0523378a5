// The server of the demo as a process of its own, started as `npm start` starts it and ended with us.

import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { type DemoOptions, WrongWords } from './demoOptions.ts'

const startMaxMs = 120_000
const address = /http:\/\/127\.0\.0\.1:(\d+)/

export class DemoServer {
  readonly #child: ChildProcess
  readonly #exited: Promise<unknown>
  #printed = ''

  constructor(options: Pick<DemoOptions, 'port' | 'speed'>, roomsDir: string) {
    const start = join(import.meta.dirname, '..', '..', 'server', 'bin', 'start.mjs')
    const { port, speed } = options
    const words = ['--rooms', roomsDir, '--port', String(port), '--speed', String(speed)]
    this.#child = spawn(process.execPath, [start, ...words], { stdio: ['ignore', 'pipe', 'pipe'] })
    process.once('exit', () => this.#child.kill('SIGKILL'))
    this.#exited = once(this.#child, 'exit')
    const keep = (text: string) => {
      this.#printed = (this.#printed + text).slice(-20_000)
    }
    this.#child.stdout?.setEncoding('utf8').on('data', keep)
    // Its log is kept for the moment it does not start; a demo's terminal shows the addresses.
    this.#child.stderr?.setEncoding('utf8').on('data', keep)
  }

  get hasEnded(): boolean {
    return this.#child.exitCode !== null || this.#child.signalCode !== null
  }

  async serves(): Promise<string> {
    const untilMs = performance.now() + startMaxMs
    while (performance.now() < untilMs && !this.hasEnded) {
      const [origin] = address.exec(this.#printed) ?? []
      if (origin !== undefined) return origin
      await setTimeout(50)
    }
    throw new WrongWords(`The server did not start:\n${this.#printed.slice(-2_000)}`)
  }

  async end(): Promise<void> {
    if (!this.hasEnded) this.#child.kill('SIGTERM')
    await this.#exited
  }
}
