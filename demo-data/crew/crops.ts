// What really went into the birds of the demo, whether or not anybody wrote it down. The crew looks here
// when it looks at a crop, and the demo counts here at its end; the board never sees it.

import type { BirdId, InstantMs, LengthMs } from '../../shared/base/values.ts'
import type { Crop } from '../../shared/board/constants.ts'
import type { Bird, Board } from '../../shared/board/state.ts'
import { birdDueAtMs, intervalMs, lastFedAtMs, lateMs } from '../../shared/rules/due.ts'

type Fill = { readonly atMs: InstantMs; readonly intervalMs: LengthMs }

/** A crop empties well within its interval; from here on a look finds it empty (ours, no source). */
const emptyAfterShare = 0.5

export class Crops {
  readonly #fills = new Map<BirdId, Fill>()
  feeds = 0
  doubleFeeds = 0
  missed = 0

  /** What the room itself says of its birds when the crew comes in is taken to be true. */
  learn(board: Board): void {
    for (const bird of Object.values(board.birds)) {
      const atMs = lastFedAtMs(bird)
      if (atMs === null || this.#fills.has(bird.id)) continue
      this.#fills.set(bird.id, { atMs, intervalMs: intervalMs(board, bird) })
    }
  }

  /** A bird swallowed something. `isMeant`: somebody said they wanted to feed it so soon. */
  fed(board: Board, bird: Bird, atMs: InstantMs, isMeant: boolean): void {
    const before = this.#fills.get(bird.id)
    const interval = intervalMs(board, bird)
    this.feeds += 1
    if (before) {
      const age = atMs - before.atMs
      if (!isMeant && age < Math.min(before.intervalMs, interval) / 2) this.doubleFeeds += 1
    }
    const dueAtMs = birdDueAtMs(board, bird)
    if (dueAtMs !== null) this.missed += Math.floor(lateMs(board, dueAtMs, atMs) / interval)
    this.#fills.set(bird.id, { atMs, intervalMs: interval })
  }

  /** What a look at this bird's crop shows. */
  look(bird: BirdId, nowMs: InstantMs): Crop {
    const fill = this.#fills.get(bird)
    if (!fill) return 'empty'
    return nowMs - fill.atMs < fill.intervalMs * emptyAfterShare ? 'full' : 'empty'
  }

  /** Whether it was fed since then. */
  isFedSince(bird: BirdId, sinceMs: InstantMs): boolean {
    return (this.#fills.get(bird)?.atMs ?? 0) >= sinceMs
  }
}
