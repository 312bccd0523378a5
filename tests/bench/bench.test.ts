// The bench runs, and says what it promises to say. How fast anything was is not asked here: numbers of
// a busy machine prove nothing, and those worth keeping stand in docs/figures with how they came about.

import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { describe, expect, it } from 'vitest'
import { projectRoot } from '../../server/bin/launch.mjs'
import { percentile, spreadOf } from './percentiles.ts'

/** A build first where there is none. */
const limitMs = 240_000
const run = promisify(execFile)
const bench = (...words: string[]) =>
  run(process.execPath, [join('server', 'bin', 'run.mjs'), 'tests/bench/bench.ts', ...words], {
    cwd: projectRoot,
  })

describe('the fanout bench', () => {
  it(
    'measures the floor and ours in one run, with the spread of each',
    async () => {
      const { stdout } = await bench('fanout', '--screens', '3', '--samples', '5', '--json')
      const { rows, ...rest } = JSON.parse(stdout)
      expect(rest).toEqual({})
      expect(rows.map(({ row }: { row: string }) => row)).toEqual(['floor-ws-durable', 'ours'])
      for (const { row: _row, screens, ...spread } of rows) {
        expect(screens).toBe(3)
        expect(Object.keys(spread)).toEqual(['p50', 'p95', 'p99', 'max'])
        const { p50, p95, p99, max } = spread
        expect(p50).toBeGreaterThan(0)
        expect([p50, p95, p99, max]).toEqual([p50, p95, p99, max].toSorted((a, b) => a - b))
      }
    },
    limitMs,
  )

  it('is not run at all on words that mean nothing', async () => {
    await expect(bench('race')).rejects.toMatchObject({ code: 2, stdout: '' })
    await expect(bench('fanout', '--screens', '60')).rejects.toMatchObject({ code: 2, stdout: '' })
  })
})

describe('a percentile', () => {
  it('is the smallest sample that so many do not exceed', () => {
    const tenths = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]
    expect([50, 90, 95, 100].map((percent) => percentile(tenths, percent))).toEqual([5, 9, 10, 10])
  })

  it('does not depend on the order in which samples came', () => {
    expect(spreadOf([3, 1, 2])).toEqual({ p50: 2, p95: 3, p99: 3, max: 3 })
  })
})
