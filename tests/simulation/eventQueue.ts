// What is still to happen in a simulated world, earliest first and in the order in which it was put
// there. Time moves only from one event to the next. After each one every promise that can go on has
// gone on before the next begins, so that nothing depends on how fast the machine is.

/** Bounds a world that feeds itself: far more than any room has timers, frames and people. */
const waitingMax = 100_000

export type Event = {
  readonly atMs: number
  readonly sequence: number
  readonly what: string
  readonly run: () => void
  isCancelled: boolean
}

export class EventQueue {
  /** A binary heap: the earliest is first, and none is earlier than the one at half its place. */
  readonly #heap: Event[] = []
  #sequence = 0
  #nowMs: number
  /** Events that have run. */
  steps = 0

  constructor(startMs: number) {
    this.#nowMs = startMs
  }

  get nowMs(): number {
    return this.#nowMs
  }

  /** Runs once after so many milliseconds, unless the function it returns is called. */
  after(delayMs: number, what: string, run: () => void): () => void {
    const atMs = this.#nowMs + Math.max(0, Math.ceil(delayMs))
    const event: Event = { atMs, sequence: this.#sequence, what, run, isCancelled: false }
    this.#sequence += 1
    this.#put(event)
    return () => {
      event.isCancelled = true
    }
  }

  /** Whatever was begun outside of an event has gone on as far as it can. */
  settled(): Promise<void> {
    return allPromises()
  }

  /** The next event has happened; null when there is none up to `untilMs`, and time stands there. */
  async step(untilMs: number): Promise<Event | null> {
    const event = this.#take(untilMs)
    if (event === null) {
      this.#nowMs = Math.max(this.#nowMs, untilMs)
      return null
    }
    this.#nowMs = event.atMs
    this.steps += 1
    event.run()
    await allPromises()
    return event
  }

  #take(untilMs: number): Event | null {
    for (;;) {
      const first = this.#heap[0]
      if (first === undefined || first.atMs > untilMs) return null
      this.#removeFirst()
      if (!first.isCancelled) return first
    }
  }

  #put(event: Event): void {
    if (this.#heap.length >= waitingMax) throw new Error('the simulated world has run away')
    let at = this.#heap.length
    while (at > 0) {
      const above = (at - 1) >> 1
      const other = this.#heap[above]
      if (other === undefined || isBefore(other, event)) break
      this.#heap[at] = other
      at = above
    }
    this.#heap[at] = event
  }

  #removeFirst(): void {
    const last = this.#heap.pop()
    if (last === undefined || this.#heap.length === 0) return
    let at = 0
    for (;;) {
      const below = this.#earlierBelow(at)
      if (below === null || isBefore(last, below.event)) break
      this.#heap[at] = below.event
      at = below.place
    }
    this.#heap[at] = last
  }

  #earlierBelow(at: number): { readonly event: Event; readonly place: number } | null {
    const left = this.#heap[2 * at + 1]
    const right = this.#heap[2 * at + 2]
    if (left === undefined) return null
    if (right === undefined || isBefore(left, right)) return { event: left, place: 2 * at + 1 }
    return { event: right, place: 2 * at + 2 }
  }
}

const isBefore = (a: Event, b: Event): boolean =>
  a.atMs < b.atMs || (a.atMs === b.atMs && a.sequence < b.sequence)

/**
 * Returns when no promise can go on any more: the machine runs all of them before it runs the next
 * immediate. One costs about a microsecond, less than any fixed number of awaits that would do.
 */
const allPromises = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))
