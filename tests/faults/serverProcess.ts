// The built server as a process of its own, as a room would run it: started, killed without a word,
// started again on the same folder and port. Only the process started here is ever signalled.

import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { closeSync, openSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { assert } from '../../shared/base/control.ts'
import { endsWithUs } from './children.ts'

export type ServerPlace = {
  /** The folder of a finished build. */
  readonly build: string
  readonly roomsDir: string
  /** 0 for any free one. */
  readonly port: number
  readonly speed: number
  /** Where its log is written, one start after the other. */
  readonly logFile: string
}

/** A start that has printed no address by then will print none. */
const startMaxMs = 30_000
const lookAgainMs = 10
/** A server told to end that has not by then hangs. */
const endMaxMs = 10_000
const printedMaxChars = 10_000
const logTailChars = 2_000

const printedAddress = /http:\/\/127\.0\.0\.1:(\d+)/

export class ServerProcess {
  readonly #child: ChildProcess
  readonly #place: ServerPlace
  readonly #exited: Promise<unknown>
  #printed = ''

  /** Started, and not yet waited for: a kill may come before it serves. */
  constructor(place: ServerPlace) {
    this.#place = place
    const { build, roomsDir, port, speed, logFile } = place
    const log = openSync(logFile, 'a')
    const options = ['--rooms', roomsDir, '--port', String(port), '--speed', String(speed)]
    this.#child = spawn(process.execPath, [join(build, 'server', 'main.mjs'), ...options], {
      stdio: ['ignore', 'pipe', log],
    })
    closeSync(log)
    endsWithUs(this.#child)
    this.#exited = once(this.#child, 'exit')
    this.#child.stdout?.setEncoding('utf8').on('data', (text: string) => {
      this.#printed = (this.#printed + text).slice(0, printedMaxChars)
    })
  }

  get isRunning(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null
  }

  /** The port it serves on, once it has printed its address. Throws when it ends before that. */
  async serves(): Promise<number> {
    const startedMs = performance.now()
    while (performance.now() - startedMs < startMaxMs) {
      const [, port] = printedAddress.exec(this.#printed) ?? []
      if (port !== undefined) return Number(port)
      if (!this.isRunning) break
      await Promise.race([setTimeout(lookAgainMs), this.#exited])
    }
    throw new Error(`the server did not start; its log ends:\n${this.#logTail()}`)
  }

  /** Kills it without a word: nothing it holds in memory is written any more. */
  strike(): void {
    if (this.isRunning) this.#child.kill('SIGKILL')
  }

  async ended(): Promise<void> {
    await this.#exited
  }

  /** Asks it to end, as a service manager would. Returns its exit code. */
  async end(): Promise<number | null> {
    if (this.isRunning) this.#child.kill('SIGTERM')
    await Promise.race([this.#exited, setTimeout(endMaxMs, null, { ref: false })])
    this.strike()
    await this.#exited
    return this.#child.exitCode
  }

  #logTail(): string {
    return readFileSync(this.#place.logFile, 'utf8').slice(-logTailChars)
  }
}

/** The port an origin is on; for tools that were given one. */
export function originOf(port: number): string {
  assert(port > 0, 'the server serves on a port')
  return `http://127.0.0.1:${port}`
}
