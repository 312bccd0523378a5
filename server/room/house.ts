// What is wrong with the house itself, for the heartbeat: the journal cannot write, the clock moved
// while nobody looked, an old day is damaged. None of it can be journalled; it is gone with a restart.

import { type InstantMs, type LengthMs, minuteMs } from '../../shared/base/values.ts'
import type { HouseCondition } from '../../shared/wire/frames.ts'

/** Long enough for whoever opens the room to compare it with their own watch. */
export const gapShownMs: LengthMs = 15 * minuteMs
/** Where more files than this are damaged, a longer list says nothing more. */
const damagedMax = 5

export class House {
  readonly #openedAtMs: InstantMs
  readonly #gapMs: LengthMs | null
  #damaged: readonly string[] = []
  #failing: HouseCondition | null = null

  /** `gapMs`: how long nothing had been recorded before this start, where that is worth a question. */
  constructor(openedAtMs: InstantMs, gapMs: LengthMs | null) {
    this.#openedAtMs = openedAtMs
    this.#gapMs = gapMs
  }

  /** Told at each failure; the first of them counts until the journal writes again. */
  failed(condition: HouseCondition): void {
    this.#failing ??= condition
  }

  writesAgain(): void {
    this.#failing = null
  }

  get isFailing(): boolean {
    return this.#failing !== null
  }

  foundDamage(files: readonly string[]): void {
    this.#damaged = [...new Set(files)].slice(0, damagedMax)
  }

  conditions(nowMs: InstantMs): readonly HouseCondition[] {
    const gapMs = nowMs < this.#openedAtMs + gapShownMs ? this.#gapMs : null
    return [
      ...(this.#failing === null ? [] : [this.#failing]),
      ...(gapMs === null ? [] : [{ type: 'clockJumped', byMs: gapMs } as const]),
      ...this.#damaged.map((file) => ({ type: 'damageFound', file }) as const),
    ]
  }
}
