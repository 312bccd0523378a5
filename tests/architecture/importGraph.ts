// Reads the imports of a tree of sources, this project's or a planted one, and names the breaches of
// floors.ts. Only the architecture tests call it.
import { cruise, type ICruiseResult, type IModule } from 'dependency-cruiser'
import { forbiddenImports, forbiddenReach, type ReachRule } from './floors.ts'

const folders = ['shared', 'server', 'client', 'tests', 'demo-data']

export interface ImportGraph {
  /** Our own files, packages and node's modules not counted. */
  readonly sources: readonly string[]
  /** One sentence per breach: rule, from, to, what to do. */
  readonly breaches: readonly string[]
  /** The names of the rules breached. */
  readonly rulesBreached: readonly string[]
}

/** Reads every source under `root`, which must hold at least one of the folders. */
export async function readImports(root: string, present = folders): Promise<ImportGraph> {
  const { output } = await cruise(
    [...present],
    {
      baseDir: root,
      validate: true,
      ruleSet: { forbidden: forbiddenImports.map((rule) => ({ ...rule, severity: 'error' })) },
      // Types count: a cycle of types still ties two files together.
      tsPreCompilationDeps: true,
      doNotFollow: { path: 'node_modules' },
    },
    { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  )
  if (typeof output === 'string') throw new Error('dependency-cruiser gave text, not a graph')
  const found = [...singleBreaches(output), ...reachBreaches(output.modules)]
  return {
    sources: output.modules.map((module) => module.source).filter(isOurs),
    breaches: found.map(({ rule, path }) => `${rule}: ${path.join(' -> ')}. ${commentOf(rule)}`),
    rulesBreached: [...new Set(found.map(({ rule }) => rule))],
  }
}

interface Breach {
  readonly rule: string
  readonly path: readonly string[]
}

function isOurs(source: string): boolean {
  return folders.some((folder) => source.startsWith(`${folder}/`))
}

function commentOf(name: string): string {
  const rule = [...forbiddenImports, ...forbiddenReach].find((rule) => rule.name === name)
  return rule?.comment ?? ''
}

function singleBreaches(result: ICruiseResult): readonly Breach[] {
  return result.summary.violations.map((violation) => ({
    rule: violation.rule.name,
    path: [violation.from, ...(violation.cycle?.map((step) => step.name) ?? [violation.to])],
  }))
}

function reachBreaches(modules: readonly IModule[]): readonly Breach[] {
  const loads = new Map(modules.map((module) => [module.source, loadedBy(module)]))
  return forbiddenReach.flatMap((rule) =>
    [...loads.keys()]
      .filter((source) => rule.from.test(source))
      .flatMap((source) => pathTo(rule, source, loads) ?? [])
      .map((path) => ({ rule: rule.name, path })),
  )
}

/** What running `module` runs too; an `import type` or a type in a comment runs nothing. */
function loadedBy(module: IModule): readonly string[] {
  return module.dependencies
    .filter(({ dependencyTypes }) => !dependencyTypes.some((type) => /^type-/.test(type)))
    .map(({ resolved }) => resolved)
}

/** The first way from `start` to what `rule` forbids, breadth first; each file is seen once. */
function pathTo(
  rule: ReachRule,
  start: string,
  loads: ReadonlyMap<string, readonly string[]>,
): readonly [readonly string[]] | undefined {
  const cameFrom = new Map<string, string>()
  const queue = [start]
  for (const source of queue) {
    if (source !== start && rule.to.test(source)) return [wayBack(source, cameFrom)]
    for (const next of loads.get(source) ?? []) {
      if (next === start || cameFrom.has(next)) continue
      cameFrom.set(next, source)
      queue.push(next)
    }
  }
  return undefined
}

function wayBack(end: string, cameFrom: ReadonlyMap<string, string>): readonly string[] {
  const before = cameFrom.get(end)
  return before === undefined ? [end] : [...wayBack(before, cameFrom), end]
}
