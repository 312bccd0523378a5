// Twenty kills of the real server in mid-round, through the same command anybody can run for longer.

import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'
import { projectRoot } from '../../server/bin/launch.mjs'

const rounds = 20
/** A build first where there is none; then about a second a round, more on a busy machine. */
const limitMs = 240_000

const run = promisify(execFile)
const tool = (...words: string[]) =>
  run(process.execPath, [join('server', 'bin', 'run.mjs'), 'tests/faults/torture.ts', ...words], {
    cwd: projectRoot,
  })

describe('a server killed in mid-round under six people', () => {
  it(
    'loses and doubles nothing that was acknowledged',
    async () => {
      const { stdout } = await tool('crash', '--rounds', String(rounds), '--json')
      const counts = JSON.parse(stdout)
      expect(counts).toEqual({
        rounds,
        acknowledged: expect.any(Number),
        lost: 0,
        doubled: 0,
        invariantFailures: 0,
      })
      // Six people at work: a run in which next to nothing was acknowledged has shown nothing.
      expect(counts.acknowledged).toBeGreaterThan(rounds * 10)
    },
    limitMs,
  )

  it('is not run at all on words that mean nothing', async () => {
    await expect(tool('burn')).rejects.toMatchObject({ code: 2, stdout: '' })
    await expect(tool('crash', '--rounds', 'many')).rejects.toMatchObject({ code: 2, stdout: '' })
    await expect(tool('crash', '--round', '3')).rejects.toMatchObject({ code: 2, stdout: '' })
  })
})
