// Slow work in a line. Hashing a PIN takes one of the few threads that also flush the journal, so two
// hashes at once could hold everybody's answers: they go one after the other.

/** So many wait at most; beyond, whoever asks is told to come back, or the line would grow for ever. */
export const waitingMax = 50

/** The line is full; nothing was begun. */
export class LineFull extends Error {
  constructor() {
    super(`more than ${waitingMax} wait for their turn`)
    this.name = 'LineFull'
  }
}

export class OneAtATime {
  #last: Promise<unknown> = Promise.resolve()
  #waiting = 0

  /** Begins `work` when all before it are through, whatever came of them. Throws `LineFull`. */
  async run<T>(work: () => Promise<T>): Promise<T> {
    if (this.#waiting > waitingMax) throw new LineFull()
    this.#waiting += 1
    const mine = this.#last.then(work)
    this.#last = mine.then(
      () => undefined,
      () => undefined,
    )
    try {
      return await mine
    } finally {
      this.#waiting -= 1
    }
  }
}
