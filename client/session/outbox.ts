// What this device still owes the room, mirrored in memory from the store that outlives a reload. Here
// stand the entries, the stuck ones and the numbering; which of them is sent when is the lane's
// business (`laneSender.ts`), and what one store call does is the store's.
//
//   add ─▶ waiting ──answered──▶ kept 15 min ─▶ gone        (a restored server makes it wait again)
//             ╰────set aside──▶ stuck, its number owed ─▶ withdrawn ─▶ a person decides

import type { Answer } from '../../shared/wire/frames.ts'
import { keptMs, outboxMax } from '../../shared/wire/limits.ts'
import { asStuck, stuckId } from './adoption.ts'
import { nothingYet } from './outboxChange.ts'
import type {
  Complain,
  Noted,
  OutboxChange,
  OutboxContents,
  OutboxEntry,
  OutboxStore,
  StuckEntry,
  Timers,
  Told,
} from './ports.ts'
import { notedAgo, type Origin } from './timing.ts'

export type Held = { readonly entry: OutboxEntry; readonly origin: Origin }
/** Either of them, for whoever cares only what was noted. */
export type HeldNote = {
  readonly entry: Noted & { readonly n: number }
  readonly origin: Origin
}
export type HeldStuck = { readonly entry: StuckEntry; readonly origin: Origin }

/** Answered reports beyond this go before their 15 minutes are over; else a busy lane fills the disk. */
const answeredMax = 500

export class Outbox {
  readonly #store: OutboxStore
  readonly #timers: Timers
  readonly #complain: Complain
  readonly #entries = new Map<number, Held>()
  readonly #stuck = new Map<string, HeldStuck>()
  readonly #answeredMonoMs = new Map<number, number>()
  #about: Omit<OutboxContents, 'entries' | 'stuck'> = nothingYet
  /** Up to here every number was seen in the store by us; one that is missing is gone for good. */
  #readUpToN = 0
  #isFailing = false

  constructor(store: OutboxStore, timers: Timers, complain: Complain) {
    this.#store = store
    this.#timers = timers
    this.#complain = complain
  }

  /** The store did not take or give something; what is on screen may not survive a reload. */
  get isFailing(): boolean {
    return this.#isFailing
  }
  get lane(): string | null {
    return this.#about.lane
  }
  get token(): string | null {
    return this.#about.token
  }
  get told(): Told {
    return this.#about.told
  }
  get lastN(): number {
    return this.#about.lastN
  }
  /** The room's time that an earlier page life had heard; the one bound left to a page that heard none. */
  get heardEarlierMs(): number {
    const earlier = [...this.#entries.values()].filter(({ origin }) => origin === null)
    return Math.max(0, ...earlier.map(({ entry }) => entry.heardAtMs))
  }

  held(n: number): Held | undefined {
    return this.#entries.get(n)
  }

  /** In the order of their numbers. */
  waiting(): readonly Held[] {
    return [...this.#entries.values()]
      .filter(({ entry }) => entry.standing.type === 'waiting')
      .sort((a, b) => a.entry.n - b.entry.n)
  }

  stuck(): readonly HeldStuck[] {
    return [...this.#stuck.values()]
  }

  stuckWithNumber(n: number): HeldStuck | undefined {
    return this.#stuck.get(stuckId(this.lane, n))
  }

  /** Whether one more would be more than a device may owe. */
  isFull(): boolean {
    return this.waiting().length + this.#stuck.size >= outboxMax
  }

  /** The number is neither ours nor another tab's: nobody holds a body for it any more. */
  isForgotten(n: number): boolean {
    return !this.#entries.has(n) && n <= this.#readUpToN
  }

  /** Reads the store; what another tab has added since comes in. False when it could not be read. */
  async read(): Promise<boolean> {
    const contents = await this.#tried('the outbox could not be read', () => this.#store.load())
    if (contents !== null) this.#merge(contents)
    return contents !== null
  }

  /** Takes on the lane the server named. False when the store failed; nothing may be sent then. */
  async adopt(lane: string, laneN: number): Promise<boolean> {
    const adopted = await this.#tried('the lane could not be kept', () =>
      this.#store.adopt(lane, laneN),
    )
    if (adopted === null) return false
    if (adopted.isRenumbered) {
      this.#entries.clear()
      this.#readUpToN = 0
    }
    this.#merge(adopted)
    return true
  }

  /** Null when the store did not take it: then it is not noted, and whoever noted it must be told. */
  async add(noted: Noted, origin: Origin, insteadOf?: string): Promise<Held | null> {
    const entry = await this.#tried('a note could not be kept', () =>
      this.#store.add(noted, insteadOf),
    )
    if (entry === null) return null
    const held = { entry, origin }
    this.#entries.set(entry.n, held)
    if (entry.n === this.#readUpToN + 1) this.#readUpToN = entry.n
    this.#about = { ...this.#about, lastN: Math.max(this.lastN, entry.n) }
    if (insteadOf !== undefined) this.#stuck.delete(insteadOf)
    return held
  }

  /** A report stays for a while, an ask goes at once: it would never be sent again as itself. */
  async answered({ entry, origin }: Held, answer: Answer, told: Told): Promise<void> {
    const { n } = entry
    if (entry.kind === 'ask') {
      this.#entries.delete(n)
      await this.#write({ remove: [n], told })
      return
    }
    const standing = { type: 'answered', answer, answeredWallMs: this.#timers.wallMs() } as const
    const settled = { ...entry, standing }
    this.#entries.set(n, { entry: settled, origin })
    this.#answeredMonoMs.set(n, this.#timers.nowMs())
    await this.#write({ put: [settled], remove: this.#forgetOld(), told })
  }

  /** Keeps the body aside and frees the lane of it. */
  async setAside(
    { entry, origin }: Held,
    about: Pick<StuckEntry, 'why' | 'number'>,
  ): Promise<void> {
    const stuck = asStuck(entry, this.lane, about)
    this.#entries.delete(entry.n)
    this.#stuck.set(stuck.id, { entry: stuck, origin })
    await this.#write({ remove: [entry.n], putStuck: [stuck] })
  }

  async numberWithdrawn({ entry, origin }: HeldStuck): Promise<void> {
    const stuck: StuckEntry = { ...entry, number: 'withdrawn' }
    this.#stuck.set(entry.id, { entry: stuck, origin })
    await this.#write({ putStuck: [stuck] })
  }

  async forgetStuck(id: string): Promise<void> {
    await this.#write({ removeStuck: [id] })
    this.#stuck.delete(id)
  }

  /** The server has lost its answers from this number on: what we still hold of them waits again. */
  async owe(fromN: number): Promise<void> {
    const put: OutboxEntry[] = []
    for (const { entry, origin } of [...this.#entries.values()]) {
      if (entry.n < fromN || entry.standing.type !== 'answered') continue
      const again: OutboxEntry = { ...entry, standing: { type: 'waiting' } }
      this.#entries.set(entry.n, { entry: again, origin })
      put.push(again)
    }
    if (put.length > 0) await this.#write({ put })
  }

  #merge(contents: OutboxContents): void {
    const { entries, stuck, ...about } = contents
    for (const entry of stuck) {
      if (!this.#stuck.has(entry.id)) this.#stuck.set(entry.id, { entry, origin: null })
    }
    for (const entry of entries) {
      const mine = this.#entries.get(entry.n)
      const isNews = entry.standing.type === 'answered' && mine?.entry.standing.type === 'waiting'
      if (mine !== undefined && isNews) this.#entries.set(entry.n, { entry, origin: mine.origin })
      // A number we had read and no longer hold was taken out by us while this was being read.
      const isNew = mine === undefined && entry.n > this.#readUpToN
      if (isNew) this.#entries.set(entry.n, { entry, origin: null })
    }
    this.#about = about
    this.#readUpToN = Math.max(this.#readUpToN, about.lastN)
  }

  /** Takes out of memory what has been kept long enough, and says which numbers those are. */
  #forgetOld(): readonly number[] {
    const answered = [...this.#entries.values()]
      .filter(({ entry }) => entry.standing.type === 'answered')
      .sort((a, b) => a.entry.n - b.entry.n)
    const tooMany = answered.length - answeredMax
    const old = answered.filter(
      (held, place) => place < tooMany || this.#answeredAgoMs(held) > keptMs,
    )
    const numbers = old.map(({ entry }) => entry.n)
    for (const n of numbers) {
      this.#entries.delete(n)
      this.#answeredMonoMs.delete(n)
    }
    return numbers
  }

  #answeredAgoMs({ entry }: Held): number {
    if (entry.standing.type !== 'answered') return 0
    const monoMs = this.#answeredMonoMs.get(entry.n)
    const origin = monoMs === undefined ? null : { notedMonoMs: monoMs, startedMonoMs: null }
    const answered = { ...entry, notedWallMs: entry.standing.answeredWallMs }
    return notedAgo(answered, origin, this.#timers)
  }

  async #write(change: OutboxChange): Promise<void> {
    await this.#tried('the outbox could not be written', () => this.#store.write(change))
  }

  /** The one place where a failing store is met; memory goes on and a repeat gets its first answer. */
  async #tried<T>(what: string, run: () => Promise<T>): Promise<T | null> {
    try {
      const value = await run()
      this.#isFailing = false
      return value
    } catch (error) {
      this.#isFailing = true
      this.#complain(what, error)
      return null
    }
  }
}
