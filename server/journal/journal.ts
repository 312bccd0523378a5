// The journal of one room and season: the truth that boards, snapshots and screens are folded from.
// Records are appended, each linked to the one before by its hash, flushed before anyone is answered,
// and never changed. Called by the scribe (append), by whoever serves tails and pages of the past
// (read), and by the background scrub. What the events mean is not known here.

import { join } from 'node:path'
import { assert } from '../../shared/base/control.ts'
import { Appender, WriteFailed } from '../disk/appender.ts'
import type { ChainRules } from './chain.ts'
import { type ChainPlace, type DayFile, dayFile, isDayLabel } from './dayFiles.ts'
import { readFrom } from './opening.ts'
import { type RecordRange, readRange } from './reading.ts'
import {
  type ChainHead,
  emptyHead,
  type JournalEntry,
  type JournalRecord,
  sealRecord,
} from './record.ts'
import { repair, type Torn } from './repair.ts'
import { type Finding, scrubFiles } from './scrub.ts'

export interface JournalPlace<E> extends ChainPlace, ChainRules<E> {
  /** What a snapshot vouches for: only what follows it is read. Left out, everything is. */
  readonly after?: ChainHead
  /** Called for every record after `after`, in order, one by one, so that none need be kept. */
  readonly onRecord: (record: JournalRecord<E>) => void
}

export interface OpenedJournal<E> {
  readonly journal: Journal<E>
  /** Ends that a crash tore and that were cut off; at most one, save after two mishaps at once. */
  readonly torn: readonly Torn[]
}

/**
 * Reads, checks and mends what is there, or begins a journal where there is none. Throws
 * `JournalDamage` on anything but a torn end, and what the disk says where it will not be written.
 */
export async function openJournal<E>(place: JournalPlace<E>): Promise<OpenedJournal<E>> {
  await place.disk.makeDir(place.dir)
  const found = await readFrom(place, place.after ?? emptyHead, place)
  const torn = await repair(place, found.repair)
  return { journal: new Journal(place, found.head, found.last), torn }
}

export class Journal<E> {
  readonly #place: ChainPlace & ChainRules<E>
  #head: ChainHead
  #file: DayFile | null
  #appender: Appender | null = null
  #failure: WriteFailed | null = null
  #isBusy = false

  constructor(place: ChainPlace & ChainRules<E>, head: ChainHead, file: DayFile | null) {
    this.#place = place
    this.#head = head
    this.#file = file
  }

  /** The last record that is durable. */
  get head(): ChainHead {
    return this.#head
  }

  /** What the disk said when it failed; null while all is well. Once set, it stays. */
  get failure(): WriteFailed | null {
    return this.#failure
  }

  /**
   * All of the entries, durable once this returns: one write, one flush. One append at a time.
   * `dayLabel` (`2026-05-23`) is the civil day the records are filed under. Throws `WriteFailed`,
   * then and at every later try: what was handed in is not known, and must not be answered for.
   */
  async append(entries: readonly JournalEntry<E>[], dayLabel: string): Promise<void> {
    if (this.#failure !== null) throw this.#failure
    assert(!this.#isBusy, 'one append at a time to the journal')
    assert(isDayLabel(dayLabel), `${dayLabel} is a day`)
    const first = entries[0]
    if (first === undefined) return
    const { bytes, head } = this.#sealed(entries)
    this.#isBusy = true
    try {
      const appender = await this.#appenderFor(first.version, dayLabel)
      await appender.append(bytes)
      this.#head = head
    } catch (error) {
      this.#failure = error instanceof WriteFailed ? error : new WriteFailed(this.#place.dir, error)
      throw this.#failure
    } finally {
      this.#isBusy = false
    }
  }

  /** Records by version, at most `limit`, oldest first, none beyond `head`. Throws `JournalDamage`. */
  readRecords(range: RecordRange): Promise<readonly JournalRecord<E>[]> {
    return readRange(this.#place, range, this.#head)
  }

  /**
   * Checks every file up to `head` and names what is wrong, instead of stopping at the first. `pause`
   * is awaited between pieces of work, so that the room goes on meanwhile.
   */
  scrub(pause: () => Promise<void>): Promise<readonly Finding[]> {
    return scrubFiles(this.#place, this.#head, pause)
  }

  async close(): Promise<void> {
    await this.#appender?.close()
    this.#appender = null
  }

  #sealed(entries: readonly JournalEntry<E>[]): { bytes: Uint8Array; head: ChainHead } {
    let head = this.#head
    const lines: string[] = []
    for (const entry of entries) {
      assert(entry.version === head.version + 1, `record ${entry.version} follows ${head.version}`)
      assert(entry.epoch >= head.epoch, `epoch ${entry.epoch} is not before ${head.epoch}`)
      const { line, hash, events } = sealRecord({
        ...entry,
        room: this.#place.room,
        prev: head.hash,
      })
      // Read back by the same reader first: what it would refuse must never get into the file.
      this.#place.parseEvents(events)
      lines.push(`${line}\n`)
      head = { version: entry.version, epoch: entry.epoch, hash }
    }
    return { bytes: Buffer.from(lines.join('')), head }
  }

  async #appenderFor(version: number, dayLabel: string): Promise<Appender> {
    const isSameDay = this.#file?.dayLabel === dayLabel
    if (isSameDay && this.#appender !== null) return this.#appender
    await this.#appender?.close()
    const file = isSameDay && this.#file !== null ? this.#file : dayFile(version, dayLabel)
    const { disk, dir } = this.#place
    const appender = await Appender.open(disk, join(dir, file.name))
    this.#file = file
    this.#appender = appender
    // The name first: a record in a file that can vanish would not be kept.
    if (!isSameDay) await disk.syncDir(dir)
    return appender
  }
}
