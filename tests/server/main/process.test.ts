// The server as a process of its own: what it prints where, its exit codes, and its end by a signal.

import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

const main = fileURLToPath(new URL('../../../server/main.ts', import.meta.url))

type Ran = { readonly code: number | null; readonly stdout: string; readonly stderr: string }

class Running {
  readonly child: ChildProcess
  stdout = ''
  stderr = ''

  constructor(words: readonly string[]) {
    this.child = spawn(process.execPath, ['--import', import.meta.resolve('tsx'), main, ...words])
    this.child.stdout?.on('data', (text) => {
      this.stdout += text
    })
    this.child.stderr?.on('data', (text) => {
      this.stderr += text
    })
  }

  async ended(): Promise<Ran> {
    if (this.child.exitCode === null) await once(this.child, 'close')
    return { code: this.child.exitCode, stdout: this.stdout, stderr: this.stderr }
  }

  async printed(): Promise<string> {
    while (!this.stdout.includes('Nobody outside')) {
      if (this.child.exitCode !== null) throw new Error(`it ended: ${this.stderr}`)
      await Promise.race([once(this.child.stdout as never, 'data'), once(this.child, 'close')])
    }
    return this.stdout
  }
}

let roomsDir: string

beforeAll(() => {
  roomsDir = mkdtempSync(join(tmpdir(), 'process-'))
})

afterAll(() => rmSync(roomsDir, { recursive: true }))

const run = (...words: string[]) => new Running(words).ended()

/** Real processes, compiled as they start: a busy machine with two cores may take long over three. */
const limitMs = 60_000

describe('the process', { timeout: limitMs }, () => {
  it('prints its help and nothing else', async () => {
    const { code, stdout, stderr } = await run('--help')
    expect([code, stderr]).toEqual([0, ''])
    expect(stdout).toMatch(/^broodboard: a live board/)
  })

  it('says a wrong option in one line on stderr and ends with 2', async () => {
    const { code, stdout, stderr } = await run('--prot', '80')
    expect([code, stdout]).toEqual([2, ''])
    expect(stderr).toMatch(/^broodboard: [^\n]*--prot[^\n]*\n$/)
  })

  it('serves until SIGTERM, lets no second start in, and ends with 0', async () => {
    const first = new Running(['--port', '0', '--rooms', roomsDir])
    const address = /http:\/\/127\.0\.0\.1:\d+/.exec(await first.printed())?.[0]
    const health = await (await fetch(`${address}/health`)).json()
    expect(health).toMatchObject({ status: 'ok' })

    const second = await run('--port', '0', '--rooms', roomsDir)
    expect([second.code, second.stdout]).toEqual([1, ''])
    expect(second.stderr).toMatch(
      new RegExp(
        `^broodboard: [^\\n]*in use by another Broodboard \\(process ${first.child.pid}\\)`,
      ),
    )

    first.child.kill('SIGTERM')
    const { code, stderr } = await first.ended()
    expect(code).toBe(0)
    // Logs are lines of JSON, and on stderr alone.
    for (const line of stderr.trim().split('\n')) expect(JSON.parse(line)).toHaveProperty('msg')
  })
})
