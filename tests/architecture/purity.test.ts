// The shared brain reads no clock, draws no chance and knows no world: every source under shared/,
// and snippets that show what is found and what is not.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { projectRoot } from '../../server/bin/launch.mjs'
import { impurities } from './purity.ts'

/** Fewer files than this, and the test has looked in the wrong place. */
const sourcesMin = 10

describe('the shared brain', () => {
  it('takes time, chance and the world as arguments', () => {
    const shared = join(projectRoot, 'shared')
    const names = readdirSync(shared, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .sort()
    expect(names.length).toBeGreaterThanOrEqual(sourcesMin)
    const found = names.flatMap((name) =>
      impurities(`shared/${name}`, readFileSync(join(shared, name), 'utf8')),
    )
    expect(found).toEqual([])
  })
})

describe('an impurity', () => {
  it.each([
    'const now = Date.now()',
    'const now = new Date()',
    'const now = new Date',
    'const now = Date()',
    'const clock = Date',
    'const n = Math.random()',
    'const n = Math["random"]()',
    'const { random } = Math',
    'const t = performance.now()',
    'const e = process.env',
    'const g = globalThis',
    'setTimeout(() => 1, 2)',
  ])('is found in `%s`', (source) => {
    expect(impurities('snippet.ts', source)).toHaveLength(1)
  })

  it.each([
    '// Date.now() is not called here',
    "const words = 'new Date()'",
    'const day = new Date(atMs).getUTCDay()',
    'const atMs = Date.UTC(2026, 0, 1)',
    'const n = Math.floor(1.5)',
    'const state = { process: 1 }.process',
    'interface Step { readonly process: string }',
    'const f = (day: Date): Date => day',
  ])('is not found in `%s`', (source) => {
    expect(impurities('snippet.ts', source)).toEqual([])
  })
})
