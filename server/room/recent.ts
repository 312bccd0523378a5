// The latest records as the screens got them, so that one that was away for a moment is told just what
// it missed, and one that shows the journal in words has its last lines. As long as the longest tail a
// screen is ever sent: who missed more gets the board.

import type { RoomEvent } from '../../shared/board/events.ts'
import type { RecordFrame } from '../../shared/wire/frames.ts'
import { tailMax } from '../../shared/wire/limits.ts'
import type { JournalEntry } from '../journal/record.ts'

/** A record as screens see it, without device, chain and checksum. */
export const frameOf = (record: JournalEntry<RoomEvent>): RecordFrame => {
  const { version, atMs, cause, by, events } = record
  return { type: 'record', version, atMs, cause, by, events }
}

export class Recent {
  #frames: readonly RecordFrame[]

  /** `frames` are the last ones of the journal, without a gap. */
  constructor(frames: readonly RecordFrame[] = []) {
    this.#frames = frames.slice(-tailMax)
  }

  add(frame: RecordFrame): void {
    this.#frames = [...this.#frames, frame].slice(-tailMax)
  }

  /**
   * Every record after `version` up to `headVersion`, in order; none when nothing was missed. Null when
   * they are not all here, or when `version` lies beyond the head: then it is not of this past.
   */
  after(version: number, headVersion: number): readonly RecordFrame[] | null {
    if (version > headVersion) return null
    if (version === headVersion) return []
    const missed = this.#frames.filter((frame) => frame.version > version)
    return missed.length === headVersion - version ? missed : null
  }

  /** Earliest first, at most so many of them. */
  last(count: number): readonly RecordFrame[] {
    return this.#frames.slice(-count)
  }
}
