// What has been opened, to be closed in reverse: at the end, and when opening fails half-way.

export class Closers {
  readonly #closers: (() => unknown)[] = []

  /** Closed before everything that was added earlier. */
  add(close: () => unknown): void {
    this.#closers.push(close)
  }

  /** Closes all of it, whatever some of it throws; rejects with the first that did. */
  async close(): Promise<void> {
    const failures: unknown[] = []
    for (const close of this.#closers.splice(0).reverse()) {
      try {
        await close()
      } catch (error) {
        failures.push(error)
      }
    }
    if (failures.length > 0) throw failures[0]
  }
}
