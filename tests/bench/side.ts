// One of the two things measured side by side: a server process with its screens connected, on which a
// claim can be made. And counting in how many screens have it.

export interface Side {
  /** Milliseconds from before the claim is sent until the last screen has it. */
  claim(): Promise<number>
  close(): Promise<void>
}

/** A claim that has not reached everybody by then never will. */
const claimMaxMs = 10_000

/** One claim: settles when it has been called as often as there are screens. */
export class RollCall {
  #left: number
  #done: () => void = () => undefined
  readonly everybody: Promise<void>

  constructor(screens: number) {
    this.#left = screens
    this.everybody = new Promise((resolve, reject) => {
      const late = setTimeout(
        () => reject(new Error(`${this.#left} of ${screens} screens have not heard of a claim`)),
        claimMaxMs,
      )
      this.#done = () => {
        clearTimeout(late)
        resolve()
      }
    })
  }

  here(): void {
    this.#left -= 1
    if (this.#left === 0) this.#done()
  }
}
