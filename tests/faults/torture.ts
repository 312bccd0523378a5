// `npm run --silent torture -- crash --rounds N [--seed N] [--speed X] [--json]`: the real server killed
// in mid-round, and what everybody was told held against the disk. With `--json` the counts and nothing
// else on standard output. Exit code 1 when anything was lost, doubled or wrong; the folder then stays.

import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { prepareBuild, projectRoot } from '../../server/bin/launch.mjs'
import { type CrashFindings, crashRun } from './crashRun.ts'
import { runTool, WrongWords, wholeNumber } from './words.ts'

const use = 'torture crash [--rounds N] [--seed N] [--speed X] [--json]'
/** Sentences printed; the counts say the rest. */
const sentencesMax = 50

async function torture(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      rounds: { type: 'string', default: '20' },
      seed: { type: 'string', default: '1' },
      speed: { type: 'string', default: '60' },
      json: { type: 'boolean', default: false },
    },
  })
  if (positionals.join(' ') !== 'crash') throw new WrongWords(`The use is: ${use}`)
  const rounds = wholeNumber('--rounds', values.rounds, { least: 1, most: 1_000_000 })
  const seed = wholeNumber('--seed', values.seed, { least: 0, most: 999_999_999 })
  const speed = wholeNumber('--speed', values.speed, { least: 1, most: 100 })
  const build = await prepareBuild(projectRoot)
  const dir = mkdtempSync(join(tmpdir(), 'broodboard-torture-'))
  const found = await crashRun({ build, dir, rounds, seed, speed })
  const isSound =
    found.rounds === rounds && found.failures.length + found.lost + found.doubled === 0
  for (const sentence of found.failures.slice(0, sentencesMax)) console.error(sentence)
  if (isSound) rmSync(dir, { recursive: true, force: true })
  else console.error(`The folder is kept: ${dir} (seed ${seed})`)
  console.log(values.json ? JSON.stringify(countsOf(found)) : inWords(found))
  return isSound ? 0 : 1
}

const countsOf = ({ rounds, acknowledged, lost, doubled, failures }: CrashFindings) => ({
  rounds,
  acknowledged,
  lost,
  doubled,
  invariantFailures: failures.length,
})

function inWords(found: CrashFindings): string {
  const { rounds, acknowledged, lost, doubled, failures, kills } = found
  const when = Object.entries(kills).map(([moment, count]) => `${count} ${moment}`)
  return [
    `${rounds} rounds, killed ${when.join(', ')}`,
    `${acknowledged} acknowledged, ${lost} lost, ${doubled} doubled, ${failures.length} failures`,
  ].join('\n')
}

await runTool(torture)
