// The room's past as the disk tells it: each record read by `journalOnDisk.ts`, folded by the program's
// own `evolve` (that the same records give the same board everywhere is one of the things to be seen),
// and looked at by itself: numbers in order, nothing twice, one claim a nest. What anybody was told
// about it is not known here; `audit.ts` brings that.

import { hashBoard } from '../../shared/board/boardHash.ts'
import { type RoomEvent, readEvents } from '../../shared/board/events.ts'
import { type Board, emptyBoard } from '../../shared/board/state.ts'
import { foldEvents } from '../../shared/rules/evolve.ts'
import { Claims } from './claims.ts'
import { type DiskRecord, JournalOnDisk } from './journalOnDisk.ts'
import { type CommandKey, keyOf, recordText } from './oracle.ts'
import { notKept, refsIn } from './privateOnDisk.ts'

export type PastRecord = {
  readonly version: number
  /** The command that caused it; null where the clock or the server did. */
  readonly key: CommandKey | null
  readonly by: string | null
  readonly device: string | null
  /** What a screen is shown of it. */
  readonly text: string
  readonly chainHash: string
}

export type ReadPast = {
  readonly records: readonly PastRecord[]
  readonly flaws: readonly string[]
  /** Records beyond the first of one command, and weights that were noted more than once. */
  readonly doubled: number
}

export class History {
  readonly #dir: string
  readonly #disk: JournalOnDisk
  readonly #claims = new Claims()
  readonly #records: PastRecord[] = []
  readonly #versionOf = new Map<CommandKey, number>()
  readonly #lastN = new Map<string, number>()
  readonly #weights = new Set<number>()
  readonly #boardHashes = new Map<number, number>()
  readonly #holders = new Map<number, ReadonlyMap<string, string>>()
  #board: Board = emptyBoard

  constructor(dir: string) {
    this.#dir = dir
    this.#disk = new JournalOnDisk(dir)
  }

  get board(): Board {
    return this.#board
  }
  get version(): number {
    return this.#disk.version
  }
  recordAt(version: number): PastRecord | undefined {
    return this.#records[version - 1]
  }
  versionOf(key: CommandKey): number | undefined {
    return this.#versionOf.get(key)
  }
  /** Kept for the versions wanted when they were read, and for the last one of each reading. */
  boardHashAt(version: number): number | undefined {
    return this.#boardHashes.get(version)
  }
  /** Nest by nest, who had it in hand; kept as the hashes are. */
  holdersAt(version: number): ReadonlyMap<string, string> | undefined {
    return this.#holders.get(version)
  }

  /** What is new on disk. Nobody may be writing meanwhile. */
  readOn(wanted: ReadonlySet<number>): ReadPast {
    const { records, flaws: diskFlaws } = this.#disk.readOn()
    const flaws = [...diskFlaws]
    let doubled = 0
    const past = records.map((record) => {
      const { version } = record
      const found = this.#take(record)
      doubled += found.doubled
      for (const flaw of found.flaws) flaws.push(`version ${version}: ${flaw}`)
      if (wanted.has(version)) this.#keep(version)
      return found.past
    })
    this.#keep(this.version)
    flaws.push(...notKept(this.#dir, refsIn(records.flatMap(({ events }) => events))))
    return { records: past, flaws, doubled }
  }

  #keep(version: number): void {
    this.#boardHashes.set(version, hashBoard(this.#board))
    this.#holders.set(version, this.#claims.holders())
  }

  #take(record: DiskRecord) {
    const { version, by, device, hash: chainHash } = record
    const key = causeKey(record)
    const past: PastRecord = { version, key, by, device, text: recordText(record), chainHash }
    this.#records[version - 1] = past
    const isAgain = key !== null && this.#versionOf.has(key)
    const flaws = isAgain ? [] : [...this.#numbered(record.cause)]
    if (key !== null && !isAgain) this.#versionOf.set(key, version)
    const folded = this.#fold(record)
    return { past, doubled: isAgain ? 1 : folded.doubled, flaws: [...flaws, ...folded.flaws] }
  }

  #numbered({ lane, n }: DiskRecord['cause']): readonly string[] {
    if (lane === undefined || n === undefined) return []
    const before = this.#lastN.get(lane) ?? 0
    this.#lastN.set(lane, n)
    return n > before ? [] : [`number ${n} of lane ${lane} stands behind ${before}`]
  }

  #fold(record: DiskRecord): { readonly doubled: number; readonly flaws: readonly string[] } {
    try {
      const events = readEvents(record.events)
      const flaws = [...this.#claims.take(events)]
      this.#board = foldEvents(this.#board, events)
      if (this.#claims.differsFrom(this.#board)) flaws.push('the board has other claims than that')
      return { doubled: this.#weighedAgain(events), flaws }
    } catch (error) {
      return { doubled: 0, flaws: [`the record cannot be folded: ${error}`] }
    }
  }

  /** The torture never notes the same weight twice, so one that comes again was written again. */
  #weighedAgain(events: readonly RoomEvent[]): number {
    let again = 0
    for (const event of events) {
      if (event.type !== 'Weighed') continue
      if (this.#weights.has(event.massMg)) again += 1
      this.#weights.add(event.massMg)
    }
    return again
  }
}

function causeKey({ cause: { type, lane, n } }: DiskRecord): CommandKey | null {
  return type === 'command' && lane !== undefined && n !== undefined ? keyOf({ lane, n }) : null
}
