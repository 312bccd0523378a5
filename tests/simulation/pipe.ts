// One direction of one link: texts arrive in the order in which they were sent, each a little later.
// As on a real socket none is lost without the link, and while the way is held they pile up.

import type { LengthMs } from '../../shared/base/values.ts'
import type { EventQueue } from './eventQueue.ts'

export type PipeEnd = { text(text: string): void; ended(): void }

export class Pipe {
  readonly #queue: EventQueue
  readonly #name: string
  readonly #end: PipeEnd
  #lastAtMs = 0
  #isHeld = false
  #isCut = false
  #underway = 0
  /** Arrived while held; null stands for the end. */
  #backlog: (string | null)[] = []

  constructor(queue: EventQueue, name: string, end: PipeEnd) {
    this.#queue = queue
    this.#name = name
    this.#end = end
  }

  get isHeld(): boolean {
    return this.#isHeld
  }

  /** Texts that have not arrived. */
  get unsentCount(): number {
    return this.#isHeld ? this.#underway + this.#backlog.length : 0
  }

  send(text: string, delayMs: LengthMs): void {
    this.#put(text, delayMs)
  }

  /** The sender is gone; told after everything sent before. */
  end(delayMs: LengthMs): void {
    this.#put(null, delayMs)
  }

  /** Nothing more arrives, whatever is underway. */
  cut(): void {
    this.#isCut = true
    this.#backlog = []
  }

  hold(): void {
    this.#isHeld = true
  }

  release(): void {
    this.#isHeld = false
    for (const text of this.#backlog.splice(0)) this.#put(text, 0)
  }

  #put(text: string | null, delayMs: LengthMs): void {
    if (this.#isCut) return
    const atMs = Math.max(this.#queue.nowMs + delayMs, this.#lastAtMs)
    this.#lastAtMs = atMs
    this.#underway += 1
    this.#queue.after(atMs - this.#queue.nowMs, this.#name, () => {
      this.#underway -= 1
      this.#arrive(text)
    })
  }

  #arrive(text: string | null): void {
    if (this.#isCut) return
    if (this.#isHeld) this.#backlog.push(text)
    else if (text === null) this.#end.ended()
    else this.#end.text(text)
  }
}
