// Claim to last screen, measured side by side in one run: the floor and ours take turns in short blocks,
// so that whatever else the machine does falls on both. Both servers run as processes of their own;
// the claimer and all screens are in this one, where one clock times them.

import { setTimeout } from 'node:timers/promises'
import type { Side } from './side.ts'

export type FanoutSides = { readonly floor: Side; readonly ours: Side }
export type FanoutSamples = { readonly floor: readonly number[]; readonly ours: readonly number[] }

const samplesPerBlock = 20
/** Long enough for what a claim leaves behind (answers, garbage) and for a device's 100 messages a second. */
const pauseMs = 25
export const warmUpSamples = 60

/** At least `samples` of each. The first claims of each are not counted: compilers warm up on them. */
export async function measureFanout(sides: FanoutSides, samples: number): Promise<FanoutSamples> {
  await block(sides.floor, warmUpSamples)
  await block(sides.ours, warmUpSamples)
  const floor: number[] = []
  const ours: number[] = []
  for (let turn = 0; ours.length < samples; turn += 1) {
    const count = Math.min(samplesPerBlock, samples - ours.length)
    // Each goes first as often as the other.
    if (turn % 2 === 0) floor.push(...(await block(sides.floor, count)))
    ours.push(...(await block(sides.ours, count)))
    if (turn % 2 === 1) floor.push(...(await block(sides.floor, count)))
  }
  return { floor, ours }
}

async function block(side: Side, count: number): Promise<readonly number[]> {
  const tookMs: number[] = []
  for (let claim = 0; claim < count; claim += 1) {
    tookMs.push(await side.claim())
    await setTimeout(pauseMs)
  }
  return tookMs
}
