// Reads every step of a simulated world to the invariants, and keeps what they have to say. A world in
// which something has happened that may never happen is looked at no further: what follows from a
// mistake is not another one.

import type { Room } from '../../server/room/room.ts'
import { allInvariants } from './invariants/all.ts'
import type { Invariant, Scene, Sentences } from './scene.ts'

export type Violation = {
  readonly number: Invariant['number']
  readonly name: string
  readonly sentence: string
  readonly atMs: number
  readonly step: number
}

type Question = (invariant: Invariant) => Sentences | undefined

export class Examiner {
  readonly #invariants = allInvariants()
  readonly #timed = this.#invariants.filter(({ isTimed }) => isTimed)
  readonly #scene: Scene
  readonly #violations: Violation[] = []

  constructor(scene: Scene) {
    this.#scene = scene
  }

  get violations(): readonly Violation[] {
    return this.#violations
  }

  get isDone(): boolean {
    return this.#violations.length > 0
  }

  step(): void {
    const { isEmpty } = this.#scene.witness
    const seen = this.#scene.witness.drain()
    // Most steps move nothing but time, and there are a quarter of a million in a day.
    for (const invariant of isEmpty ? this.#timed : this.#invariants) {
      const sentences = invariant.step?.(this.#scene, seen)
      if (sentences !== undefined && sentences.length > 0) this.#keep(invariant, sentences)
    }
  }

  died(): void {
    this.#ask((invariant) => invariant.died?.(this.#scene))
  }

  opened(room: Room): void {
    this.#ask((invariant) => invariant.opened?.(this.#scene, room))
  }

  refused(error: unknown): void {
    this.#ask((invariant) => invariant.refused?.(this.#scene, error))
  }

  /** Whether all is as it must be once trouble is over; kept as violations by `notCalm` alone. */
  isCalm(): boolean {
    return this.#invariants.every((invariant) => (invariant.calm?.(this.#scene) ?? []).length === 0)
  }

  notCalm(): void {
    this.#ask((invariant) => invariant.calm?.(this.#scene))
  }

  #ask(question: Question): void {
    for (const invariant of this.#invariants) this.#keep(invariant, question(invariant) ?? [])
  }

  #keep({ number, name }: Invariant, sentences: Sentences): void {
    const { queue } = this.#scene
    for (const sentence of sentences) {
      this.#violations.push({ number, name, sentence, atMs: queue.nowMs, step: queue.steps })
    }
  }
}
