// The numbers a row shows of its samples.

import { assert } from '../../shared/base/control.ts'

export type Spread = {
  readonly p50: number
  readonly p95: number
  readonly p99: number
  readonly max: number
}

/** The smallest sample that at least `percent` of all samples do not exceed. */
export function percentile(sorted: readonly number[], percent: number): number {
  const at = Math.max(0, Math.ceil((percent / 100) * sorted.length) - 1)
  const value = sorted[at]
  assert(value !== undefined, 'a percentile needs samples')
  return value
}

/** Milliseconds to the microsecond: finer digits are noise. */
const rounded = (ms: number): number => Math.round(ms * 1_000) / 1_000

export function spreadOf(samplesMs: readonly number[]): Spread {
  const sorted = [...samplesMs].sort((a, b) => a - b)
  return {
    p50: rounded(percentile(sorted, 50)),
    p95: rounded(percentile(sorted, 95)),
    p99: rounded(percentile(sorted, 99)),
    max: rounded(percentile(sorted, 100)),
  }
}
