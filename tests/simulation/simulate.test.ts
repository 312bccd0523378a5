// The command line: one answer and nothing else on standard output, and a sentence for a wrong wish.

import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const tool = fileURLToPath(new URL('./simulate.ts', import.meta.url))
const toolMaxMs = 120_000

function simulate(...words: readonly string[]) {
  const loader = import.meta.resolve('tsx')
  return spawnSync(process.execPath, ['--import', loader, tool, ...words], { encoding: 'utf8' })
}

describe('npm run simulate', () => {
  it(
    'answers with the sums over its seeds, on one line',
    () => {
      const { stdout, status } = simulate(
        '--seeds',
        '2',
        '--handhelds',
        '1',
        '--walls',
        '0',
        '--json',
      )
      const answer = JSON.parse(stdout)
      expect(Object.keys(answer)).toEqual([
        ...['seeds', 'steps', 'faultsInjected', 'violations', 'traceHash'],
      ])
      expect(answer).toMatchObject({ seeds: 2, violations: 0 })
      expect(answer.faultsInjected).toBeGreaterThan(0)
      expect(stdout.trimEnd().split('\n')).toHaveLength(1)
      expect(status).toBe(0)
    },
    toolMaxMs,
  )

  it.each([
    [['--seeds', 'many'], '--seeds takes a whole number'],
    [['--days', '0'], '--days takes a whole number'],
    [['--handhelds', '99'], '--handhelds takes a whole number'],
    [['--storms', '3'], '--storms'],
  ])('refuses %j in a sentence', (words, sentence) => {
    const { stdout, stderr, status } = simulate(...words)
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toContain(sentence)
  })
})
