// Who wants to know, and telling them. A subscriber that throws is its own trouble: it is complained of
// and the others are told all the same, because a broken view must not stop the room's records.

import type { Complain } from './ports.ts'

export class Subscribers<T> {
  readonly #tell = new Set<(value: T) => void>()
  readonly #complain: Complain

  constructor(complain: Complain) {
    this.#complain = complain
  }

  /** Returns the function that ends it. */
  add(tell: (value: T) => void): () => void {
    // Wrapped, so that the same function given twice is two subscriptions.
    const mine = (value: T) => tell(value)
    this.#tell.add(mine)
    return () => {
      this.#tell.delete(mine)
    }
  }

  tellAll(value: T): void {
    for (const tell of [...this.#tell]) {
      try {
        tell(value)
      } catch (error) {
        this.#complain('a subscriber failed', error)
      }
    }
  }
}
