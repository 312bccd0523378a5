// Whole lives of a journal: appends, days, failing calls, losses of power and of the process, and a
// check after each opening that nothing acknowledged is lost, doubled, changed or out of order. The
// disk may be sabotaged, which is how the tests show that the check can fail.

import type { Disk } from '../../../server/disk/disk.ts'
import type { Journal } from '../../../server/journal/journal.ts'
import { emptyHead, type JournalEntry } from '../../../server/journal/record.ts'
import { type DiskCall, type DiskErrorCode, FakeDisk } from '../../support/fakeDisk.ts'
import type { Choose } from '../../support/fakeMedium.ts'
import { entry, friday, type Note, openNotes, saturday } from './notes.ts'

export type Step =
  | { readonly type: 'append'; readonly records: number; readonly day: 'friday' | 'saturday' }
  /** The power or the process goes while nothing is under way. */
  | { readonly type: 'lose'; readonly what: 'power' | 'process' }
  /** It goes at the nth call from now, whatever is under way then, an opening too. */
  | { readonly type: 'loseAt'; readonly call: number; readonly what: 'power' | 'process' }
  | { readonly type: 'fail'; readonly nth: number; readonly code: DiskErrorCode }
  | { readonly type: 'reopen' }
  /** From here on a snapshot vouches for what the journal holds; openings read only what follows. */
  | { readonly type: 'snapshot' }

const dir = '/rooms/nursery/2026'
const days = { friday, saturday } as const
/** An opening that keeps failing ends the life: the failures dealt out are few and once each. */
const openingsMax = 20

/** What went wrong, in words; empty when nothing did. */
export async function live(
  steps: readonly Step[],
  choose: Choose,
  sabotage: (disk: Disk) => Disk = (disk) => disk,
): Promise<readonly string[]> {
  const life = new Life(choose, sabotage)
  try {
    await life.open()
    for (const step of steps) await life.take(step)
    await life.take({ type: 'lose', what: 'power' })
  } catch (error) {
    return [...life.wrongs, String(error)]
  }
  return life.wrongs
}

class Lost extends Error {}

class Life {
  readonly wrongs: string[] = []
  readonly #sabotage: (disk: Disk) => Disk
  #disk: FakeDisk
  #journal: Journal<Note> | null = null
  /** What the world was told is kept, as the content of each version. */
  #told: number[] = []
  /** What was handed in and not answered for: some first part of it may have been kept. */
  #open: number[] = []
  #vouchedFor = emptyHead
  #tries = 0
  #countdown = Number.POSITIVE_INFINITY
  #countdownTo: 'power' | 'process' = 'power'
  #onLost: () => void = () => undefined

  constructor(choose: Choose, sabotage: (disk: Disk) => Disk) {
    this.#sabotage = sabotage
    this.#disk = new FakeDisk({ choose, before: (call) => this.#before(call) })
  }

  async take(step: Step): Promise<void> {
    if (step.type === 'append') return this.#append(step.records, days[step.day])
    if (step.type === 'lose') return this.#lose(step.what)
    if (step.type === 'fail') return this.#disk.failNthChange(step.nth, step.code)
    if (step.type === 'reopen') return this.open()
    if (step.type === 'snapshot') {
      this.#vouchedFor = this.#journal?.head ?? this.#vouchedFor
      return
    }
    this.#countdown = step.call
    this.#countdownTo = step.what
  }

  async open(): Promise<void> {
    for (let openings = 0; openings < openingsMax; openings += 1) {
      const after = this.#vouchedFor
      const opened = await this.#orLost(() => openNotes(this.#sabotage(this.#disk), dir, after))
      if (opened === 'lost' || opened === 'failed') continue
      const read = opened.records.map((record) => record.events[0]?.n ?? 0)
      const found = [...this.#told.slice(0, after.version), ...read]
      const possible = [...this.#told, ...this.#open]
      const isRight =
        found.every((n, at) => n === possible[at]) && found.length >= this.#told.length
      if (!isRight) this.wrongs.push(`told ${this.#told}, open ${this.#open}, found ${found}`)
      this.#journal = opened.journal
      this.#told = found
      this.#open = []
      return
    }
    this.wrongs.push('the journal could not be opened again')
  }

  async #append(records: number, day: string): Promise<void> {
    const journal = this.#journal
    if (journal === null) return
    const entries: JournalEntry<Note>[] = []
    for (let at = 1; at <= records; at += 1) {
      this.#tries += 1
      entries.push(entry(journal.head.version + at, this.#tries))
    }
    const handedIn = entries.map(({ events }) => events[0]?.n ?? 0)
    const wasFailed = journal.failure !== null
    if (!wasFailed) this.#open = handedIn
    const answer = await this.#orLost(() =>
      journal.append(entries, day).then(() => 'kept' as const),
    )
    if (answer === 'kept' && wasFailed) this.wrongs.push('acknowledged after a failure')
    if (answer === 'kept') {
      this.#told = [...this.#told, ...handedIn]
      this.#open = []
    }
    if (answer === 'lost') await this.open()
  }

  async #lose(what: 'power' | 'process'): Promise<void> {
    this.#succeed(what)
    await this.open()
  }

  /** The outcome of one piece of work; `lost` when the power or the process went under it. */
  async #orLost<T>(work: () => Promise<T>): Promise<T | 'lost' | 'failed'> {
    const lost = new Promise<never>((_resolve, reject) => {
      this.#onLost = () => reject(new Lost())
    })
    try {
      return await Promise.race([work(), lost])
    } catch (error) {
      if (error instanceof Lost) {
        this.#succeed(this.#countdownTo)
        return 'lost'
      }
      if (isDealtOut(error)) return 'failed'
      throw error
    }
  }

  #succeed(what: 'power' | 'process'): void {
    this.#countdown = Number.POSITIVE_INFINITY
    this.#journal = null
    this.#disk = what === 'power' ? this.#disk.crash() : this.#disk.kill()
  }

  #before(_call: DiskCall): Promise<void> | undefined {
    this.#countdown -= 1
    if (this.#countdown > 0) return undefined
    this.#onLost()
    return new Promise(() => undefined)
  }
}

/** A failure the disk was told to deal out, bare or as the reason a journal gives for being failed. */
function isDealtOut(error: unknown): boolean {
  const reason = error instanceof Error && error.name === 'WriteFailed' ? error.cause : error
  return reason instanceof Error && 'code' in reason
}
