// `npm run simulate`: simulated days of a room under trouble, with every invariant read at every step.
// Exits with 1 when something happened that may never happen. With `--json` its one answer is
// `{seeds, steps, faultsInjected, violations, traceHash}`; what a person wants to read goes to stderr.

import { parseArgs } from 'node:util'
import type { Violation } from './examiner.ts'
import { runSeeds } from './manySeeds.ts'
import { hashOfAll } from './trace.ts'
import type { WorldOutcome } from './world.ts'

const usage = `Use: npm run simulate -- [--seeds N] [--first N] [--seed N] [--days N]
                         [--handhelds N] [--walls N] [--json]`

/** Beyond these a world is no longer the small room where collisions are. */
const most = { seeds: 1_000_000, days: 366, handhelds: 12, walls: 2 } as const
const tailLines = 120

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0)

function numberOf(text: string | undefined, name: string, least: number, mostOf: number): number {
  const n = Number(text)
  if (Number.isInteger(n) && n >= least && n <= mostOf) return n
  throw new RangeError(`--${name} takes a whole number from ${least} to ${mostOf}`)
}

function wishes() {
  const { values } = parseArgs({
    options: {
      seeds: { type: 'string', default: '10' },
      first: { type: 'string', default: '1' },
      seed: { type: 'string' },
      days: { type: 'string', default: '1' },
      handhelds: { type: 'string', default: '4' },
      walls: { type: 'string', default: '1' },
      json: { type: 'boolean', default: false },
    },
  })
  const seedMost = 2 ** 31
  return {
    seeds: values.seed === undefined ? numberOf(values.seeds, 'seeds', 1, most.seeds) : 1,
    first: numberOf(values.seed ?? values.first, 'first', 0, seedMost),
    days: numberOf(values.days, 'days', 1, most.days),
    handhelds: numberOf(values.handhelds, 'handhelds', 1, most.handhelds),
    walls: numberOf(values.walls, 'walls', 0, most.walls),
    isJson: values.json,
    isOne: values.seed !== undefined,
  }
}

const faultsOf = ({ faults }: WorldOutcome): number => sum(Object.values(faults))

const inWords = ({ number, name, sentence, atMs, step }: Violation): string =>
  `  ${new Date(atMs).toISOString()} step ${step}, ${number} (${name}): ${sentence}`

function tell(outcome: WorldOutcome, isOne: boolean): void {
  if (outcome.violations.length === 0) return
  if (isOne) console.error(outcome.tail.slice(-tailLines).join('\n'))
  console.error(`seed ${outcome.seed}:`)
  for (const violation of outcome.violations) console.error(inWords(violation))
}

async function main(): Promise<void> {
  const { seeds, first, isJson, isOne, ...room } = wishes()
  const all = Array.from({ length: seeds }, (_, at) => first + at)
  const outcomes = await runSeeds(all, room, (outcome) => tell(outcome, isOne))
  const answer = {
    seeds,
    steps: sum(outcomes.map(({ steps }) => steps)),
    faultsInjected: sum(outcomes.map(faultsOf)),
    violations: sum(outcomes.map(({ violations }) => violations.length)),
    traceHash: hashOfAll(outcomes.map(({ traceHash }) => traceHash)),
  }
  process.exitCode = answer.violations > 0 ? 1 : 0
  if (isJson) console.log(JSON.stringify(answer))
  else {
    const { steps, faultsInjected, violations, traceHash } = answer
    const things = `${steps} steps, ${faultsInjected} faults, ${violations} violations`
    console.log(`${seeds} seeds: ${things}; trace ${traceHash}`)
  }
}

main().catch((error: unknown) => {
  const isOurs = error instanceof RangeError || error instanceof TypeError
  console.error(isOurs ? `${error.message}\n${usage}` : error)
  process.exitCode = 2
})
