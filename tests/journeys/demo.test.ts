// The demo as somebody would run it, for a few of the room's hours: some forget to record, some tap twice,
// one walks out, one loses the link, and no bird is fed twice unasked.

import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'

const demo = ['server/bin/run.mjs', 'demo-data/demo.ts']
const runMaxMs = 150_000

async function run(...words: readonly string[]) {
  const options = { cwd: new URL('../..', import.meta.url).pathname, timeout: runMaxMs }
  const program = promisify(execFile)(process.execPath, [...demo, ...words], options)
  return program.then(
    ({ stdout }) => ({ exitCode: 0, stdout, stderr: '' }),
    (error: { code: number; stdout: string; stderr: string }) => ({
      ...{ exitCode: error.code, stdout: error.stdout, stderr: error.stderr },
    }),
  )
}

describe('the demo', () => {
  it(
    'feeds the rooms, nobody twice unasked, and ends without a fault',
    async () => {
      const { exitCode, stdout } = await run(
        ...['--speed', '30', '--minutes', '0.5', '--port', '0', '--json'],
      )
      const tally = JSON.parse(stdout)
      expect(tally).toMatchObject({ doubleFeeds: 0, faults: 0 })
      expect(tally.feeds).toBeGreaterThan(0)
      expect(exitCode).toBe(0)
    },
    runMaxMs,
  )

  it('refuses words it does not know, in a sentence', async () => {
    const { exitCode, stderr } = await run('--speed', 'fast')
    expect(exitCode).toBe(2)
    expect(stderr).toContain('--speed takes a number from 1 to 60.')
  })
})
