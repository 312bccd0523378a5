// Many worlds in as many processes as the machine has cores. What comes out is in the order of the
// seeds, whichever was ready first.

import { fork } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import type { WorldOutcome, WorldWishes } from './world.ts'

/** Each process compiles the program anew and keeps a room in memory; beyond a few it gains nothing. */
const processesMax = 8

export type SeedWishes = Omit<WorldWishes, 'seed' | 'bug'>

type Work = {
  readonly next: () => number | undefined
  readonly wishes: SeedWishes
  readonly done: (outcome: WorldOutcome) => void
}

/** Calls `tell` for each world as it ends; rejects when one cannot be run, which is a mistake of ours. */
export async function runSeeds(
  seeds: readonly number[],
  wishes: SeedWishes,
  tell: (outcome: WorldOutcome) => void,
): Promise<readonly WorldOutcome[]> {
  const outcomes = new Map<number, WorldOutcome>()
  const left = [...seeds]
  const done = (outcome: WorldOutcome) => {
    tell(outcome)
    outcomes.set(outcome.seed, { ...outcome, tail: [] })
  }
  const processes = Math.min(availableParallelism(), processesMax, seeds.length)
  await Promise.all(
    Array.from({ length: processes }, () => inProcess({ next: () => left.shift(), wishes, done })),
  )
  return seeds.flatMap((seed) => outcomes.get(seed) ?? [])
}

/** Its standard output is closed: the one answer on ours is not its to give. */
function inProcess({ next, wishes, done }: Work): Promise<void> {
  const file = fileURLToPath(new URL('./seedProcess.ts', import.meta.url))
  const child = fork(file, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] })
  return new Promise((resolve, reject) => {
    const goOn = () => {
      const seed = next()
      if (seed === undefined) child.disconnect()
      else child.send({ ...wishes, seed })
    }
    child.on('error', reject)
    child.on('exit', (code) => {
      if (code === 0) resolve()
      else reject(new Error(`a simulated world ended with exit code ${code}`))
    })
    child.on('message', (outcome: WorldOutcome) => {
      done(outcome)
      goOn()
    })
    goOn()
  })
}
