// The floors of the house, held: who may import whom (floors.ts), in this project and, to show that
// each rule can fail, in planted trees.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { projectRoot } from '../../server/bin/launch.mjs'
import { forbiddenImports, forbiddenReach } from './floors.ts'
import { readImports } from './importGraph.ts'
import { breaches, type Files, packages, sound } from './plantedBreaches.ts'

/** A run that reads fewer of our files than this has looked in the wrong place. */
const modulesMin = 40

describe('the imports of this project', () => {
  it('keep to the floors', async () => {
    const { sources, breaches } = await readImports(projectRoot)
    expect(breaches).toEqual([])
    expect(sources.length).toBeGreaterThanOrEqual(modulesMin)
  })
})

describe('an import rule', () => {
  it('lets a sound tree pass', async () => {
    expect(await rulesBreachedBy({})).toEqual([])
  })

  it('has a planted breach, each of them', () => {
    const names = [...forbiddenImports, ...forbiddenReach].map((rule) => rule.name)
    expect(Object.keys(breaches)).toEqual(names)
  })

  const planted = Object.entries(breaches).flatMap(([rule, trees]) =>
    trees.map((files) => ({ rule, files, name: Object.keys(files)[0] })),
  )
  it.each(planted)('$rule finds its breach in $name', async ({ rule, files }) => {
    expect(await rulesBreachedBy(files)).toContain(rule)
  })
})

async function rulesBreachedBy(files: Files): Promise<readonly string[]> {
  const root = mkdtempSync(join(tmpdir(), 'planted-imports-'))
  try {
    for (const [name, text] of Object.entries({ ...packages, ...sound, ...files })) {
      mkdirSync(dirname(join(root, name)), { recursive: true })
      writeFileSync(join(root, name), text)
    }
    const graph = await readImports(root, ['shared', 'server', 'client', 'tests'])
    return graph.rulesBreached
  } finally {
    rmSync(root, { recursive: true })
  }
}
