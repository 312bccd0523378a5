// One request at a time: open until a frame answers it, a fault without a number takes its place, it is
// ended, or the limit is over. What was asked is its caller's to know.

import type { LengthMs } from '../../shared/base/values.ts'
import type { ToOne } from '../../shared/wire/frames.ts'
import type { NotDone } from './outcomes.ts'
import type { Timers } from './ports.ts'

/** The server checks one PIN at a time, on purpose slowly; several people at once stand in a line. */
const requestMaxMs: LengthMs = 15_000

type Open = {
  /** Whether this frame was the answer. */
  readonly hear: (frame: ToOne) => boolean
  readonly giveUp: (outcome: NotDone) => void
  readonly cancel: () => void
}

export class OneRequest {
  readonly #timers: Timers
  #open: Open | null = null

  constructor(timers: Timers) {
    this.#timers = timers
  }

  /** Calls `send` unless another is still open; `read` makes the outcome of the frame that answers. */
  ask<Done>(read: (frame: ToOne) => Done | null, send: () => void): Promise<Done | NotDone> {
    if (this.#open !== null) return Promise.resolve({ status: 'busy' })
    return new Promise((resolve) => {
      const hear = (frame: ToOne) => {
        const done = read(frame)
        if (done !== null) resolve(done)
        return done !== null
      }
      const cancel = this.#timers.after(requestMaxMs, () => this.end({ status: 'noAnswer' }))
      this.#open = { hear, giveUp: resolve, cancel }
      send()
    })
  }

  /** Takes the frame where it is the answer, or a fault that is about no command. */
  heard(frame: ToOne): boolean {
    if (this.#open === null) return false
    if (frame.type === 'fault') {
      if (frame.n !== undefined) return false
      const { code, waitMs } = frame
      this.end({ status: 'fault', code, ...(waitMs === undefined ? {} : { waitMs }) })
      return true
    }
    if (!this.#open.hear(frame)) return false
    this.#close()
    return true
  }

  /** Ends the open request, if there is one. */
  end(outcome: NotDone): void {
    this.#close()?.giveUp(outcome)
  }

  #close(): Open | null {
    const open = this.#open
    this.#open = null
    open?.cancel()
    return open
  }
}
