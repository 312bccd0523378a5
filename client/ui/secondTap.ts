// A record takes a moment to be kept on the device, and until then its press is still under the finger.
// The same record once more in that moment is a second tap, not a second feed, box or dose of fluids.

/** Keeps one record after another; the one that is just being kept is not kept twice. */
export class SecondTap {
  #keeping: string | null = null

  /** What `keep` says, or false where this very record is being kept already. */
  async unlessSame(record: unknown, keep: () => Promise<boolean>): Promise<boolean> {
    const words = JSON.stringify(record)
    if (this.#keeping === words) return false
    this.#keeping = words
    try {
      return await keep()
    } finally {
      this.#keeping = null
    }
  }
}
