// What becomes of an outbox when the server says which lane is this device's and how far it has come.
// Pure; both stores call it inside a transaction of theirs, so that no number is given out meanwhile.

import type { OutboxChange, OutboxContents, OutboxEntry, StuckEntry } from './ports.ts'

/** An entry as it is kept aside, under the id its number gave it for ever. */
export function asStuck(
  entry: OutboxEntry,
  lane: string | null,
  about: Pick<StuckEntry, 'why' | 'number'>,
): StuckEntry {
  const { standing, ...noted } = entry
  return { ...noted, ...about, lane, id: stuckId(lane, entry.n) }
}

const ofAnotherLife = {
  why: { type: 'fault', code: 'laneNotYours' },
  number: 'withdrawn',
} as const

/** Before any lane is known nothing was sent, so a made-up lane cannot be mistaken for a real one. */
export const stuckId = (lane: string | null, n: number): string => `${lane ?? 'none'}.${n}`

/**
 * The change that takes the lane on; null when the outbox is already that lane's.
 *
 * A server ahead of our last number, or another lane than ours, means that our numbers come from
 * another life of this store. Sent as they are they would get the first answers of other commands, and
 * a report would look saved that nobody ever wrote; so whatever waits is put aside for a person to see,
 * and numbering goes on behind the server's.
 */
export function adoption(
  contents: OutboxContents,
  lane: string,
  laneN: number,
): { readonly change: OutboxChange; readonly isRenumbered: boolean } | null {
  const { entries, lastN } = contents
  if (contents.lane === lane && lastN >= laneN) return null
  if (contents.lane === null && laneN === 0) {
    return { change: { numbering: { lane, lastN } }, isRenumbered: false }
  }
  const waiting = entries.filter(
    ({ kind, standing }) => kind === 'report' && standing.type === 'waiting',
  )
  const putStuck = waiting.map((entry) => asStuck(entry, contents.lane, ofAnotherLife))
  const remove = entries.map(({ n }) => n)
  return { change: { numbering: { lane, lastN: laneN }, remove, putStuck }, isRenumbered: true }
}
