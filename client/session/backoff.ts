// How long to wait before trying again: doubling, with an upper end, and never the same for two devices,
// so that a room full of screens does not knock on a restarted server all at once.

import type { LengthMs } from '../../shared/base/values.ts'
import type { Chance } from './ports.ts'

export type Backoff = { readonly firstMs: LengthMs; readonly mostMs: LengthMs }

/** On a LAN a server is back within seconds; a feeder should not stand waiting longer than that. */
export const reconnectBackoff: Backoff = { firstMs: 250, mostMs: 5_000 }
/** A server that says it cannot just now is asked again soon, but not so that it cannot recover. */
export const retryBackoff: Backoff = { firstMs: 500, mostMs: 8_000 }

/** The wait after so many failures in a row, the first counting 1: half of it sure, half drawn. */
export function waitMs({ firstMs, mostMs }: Backoff, failures: number, chance: Chance): LengthMs {
  const fullMs = Math.min(mostMs, firstMs * 2 ** Math.min(failures - 1, 30))
  return Math.round(fullMs / 2 + (chance() * fullMs) / 2)
}
