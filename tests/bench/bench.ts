// `npm run --silent bench -- fanout --screens 50 [--samples 400] [--json]`: how long from a claim to the
// last screen, ours beside the least that could be done. Prints a small table, or with `--json` the rows
// and nothing else.

import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { prepareBuild, projectRoot } from '../../server/bin/launch.mjs'
import { screensMax } from '../../shared/wire/limits.ts'
import { runTool, WrongWords, wholeNumber } from '../faults/words.ts'
import { fanoutRows, type Row } from './fanoutRows.ts'

const use = 'bench fanout [--screens N] [--samples N] [--json]'
/** One place is the claimer's. */
const screensMost = screensMax - 1

async function bench(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      screens: { type: 'string', default: '50' },
      samples: { type: 'string', default: '400' },
      json: { type: 'boolean', default: false },
    },
  })
  if (positionals.join(' ') !== 'fanout') throw new WrongWords(`The use is: ${use}`)
  const screens = wholeNumber('--screens', values.screens, { least: 1, most: screensMost })
  const samples = wholeNumber('--samples', values.samples, { least: 1, most: 100_000 })
  const build = await prepareBuild(projectRoot)
  const dir = mkdtempSync(join(tmpdir(), 'broodboard-bench-'))
  try {
    const rows = await fanoutRows({ build, dir, screens, samples })
    if (values.json) console.log(JSON.stringify({ rows }))
    else for (const line of table(rows)) console.log(line)
    return 0
  } finally {
    rmSync(dir, { recursive: true, force: true })
  }
}

function table(rows: readonly Row[]): readonly string[] {
  const cells = rows.map(({ row, screens, ...spread }) => [
    row.padEnd(18),
    String(screens).padStart(7),
    ...Object.values(spread).map((ms) => ms.toFixed(2).padStart(8)),
  ])
  const head = ['claim to last, ms '.padEnd(18), 'screens', ...['p50', 'p95', 'p99', 'max']]
  return [head.map((word) => word.padStart(8)), ...cells].map((line) => line.join(' '))
}

await runTool(bench)
