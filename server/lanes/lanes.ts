// What the server remembers of every outbox: the last number it settled and its latest answers, so
// that a repeat gets its first answer and a gap is seen. Refusals live here alone and are gone after a
// restart (the ask is simply decided again); what left a record is rebuilt from the records' causes.
// Only durable things stand here: the scribe adds to it once the flush they rest on has returned.

import { dayMs, type InstantMs } from '../../shared/base/values.ts'
import type { Answer } from '../../shared/wire/frames.ts'

export type KeptAnswer = { readonly n: number; readonly answer: Answer }

export type Lane = {
  /** Every number up to this one has been answered. */
  readonly settledN: number
  /** When the lane was last heard, on the room's clock. */
  readonly atMs: InstantMs
  /** Earliest first, the latest few. */
  readonly answers: readonly KeptAnswer[]
}

/** A device has one command in flight, so a repeat is of its latest; more only for a stumbling one. */
export const answersPerLaneMax = 8
/** Without a limit whoever makes up devices fills the memory and every snapshot. */
export const lanesMax = 1_000
/** A device silent for a week leaves the room and must be paired anew; a month is beyond doubt. */
export const laneSilentMs = 30 * dayMs

export type Standing =
  | { readonly type: 'next' }
  | { readonly type: 'repeat'; readonly answer: Answer }
  /** Settled so long ago that its answer is no longer kept. */
  | { readonly type: 'forgotten' }
  | { readonly type: 'gap'; readonly expected: number }

/** What the number `n` is to its lane; a lane never heard of begins at 1. */
export function standingOf(lane: Lane | undefined, n: number): Standing {
  const settledN = lane?.settledN ?? 0
  if (n === settledN + 1) return { type: 'next' }
  if (n > settledN) return { type: 'gap', expected: settledN + 1 }
  const kept = lane?.answers.find((one) => one.n === n)
  return kept === undefined ? { type: 'forgotten' } : { type: 'repeat', answer: kept.answer }
}

/** The lane once `n` has its answer. A lower number than the last, out of a journal, changes nothing. */
export function settle(lane: Lane | undefined, kept: KeptAnswer, atMs: InstantMs): Lane {
  if (lane !== undefined && kept.n <= lane.settledN) return lane
  const answers = [...(lane?.answers ?? []), kept].slice(-answersPerLaneMax)
  return { settledN: kept.n, atMs: Math.max(atMs, lane?.atMs ?? 0), answers }
}

/** The lanes as a snapshot keeps them, the longest silent first. */
export type SavedLanes = readonly (readonly [id: string, lane: Lane])[]

export class Lanes {
  /** In the order of their last change, so that the first is the longest silent. */
  readonly #lanes: Map<string, Lane>

  constructor(saved: SavedLanes = []) {
    this.#lanes = new Map(saved)
  }

  get(id: string): Lane | undefined {
    return this.#lanes.get(id)
  }

  /**
   * Whether `id` is known or could be taken in. Full means that a thousand devices spoke within a
   * month: none of them is forgotten for a newcomer, since a forgotten lane could write a thing twice.
   */
  hasPlaceFor(id: string, nowMs: InstantMs): boolean {
    if (this.#lanes.has(id) || this.#lanes.size < lanesMax) return true
    const [oldest] = this.#lanes.values()
    return oldest !== undefined && nowMs - oldest.atMs > laneSilentMs
  }

  set(id: string, lane: Lane): void {
    this.#lanes.delete(id)
    this.#lanes.set(id, lane)
    this.#forgetSilent(lane.atMs)
  }

  save(): SavedLanes {
    return [...this.#lanes]
  }

  #forgetSilent(nowMs: InstantMs): void {
    for (const [id, lane] of this.#lanes) {
      if (this.#lanes.size <= lanesMax || nowMs - lane.atMs <= laneSilentMs) return
      this.#lanes.delete(id)
    }
  }
}
