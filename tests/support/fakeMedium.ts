// What the fake disk writes on: files with a cache before them, names with a cache before them, and
// the rules by which a loss of power takes the un-synced part. `fakeDisk.ts` is the port over it.
// Every choice a power cut makes is drawn from `Choose`, so a seed repeats it and an odometer can
// walk through all of them.
//
//   file   |—— synced ——|~~ doubtful ~~|—— synced ——|···· dirty ····|
//            stays         a failed sync  stays        any prefix stays, perhaps with garbage
//                          called it clean             up to the length it had

/** A whole number from 0 up to, not including, `options`. */
export type Choose = (options: number) => number

interface Range {
  readonly from: number
  readonly to: number
}

export class FakeFile {
  /** With room to grow, so that a long journal is not copied at every append. */
  #buffer: Uint8Array
  #length: number
  #syncedLength: number
  #doubtful: Range[] = []

  constructor(bytes: Uint8Array = new Uint8Array()) {
    this.#buffer = bytes
    this.#length = bytes.length
    this.#syncedLength = bytes.length
  }

  /** What it holds now: a view, to be copied by whoever keeps it. */
  get bytes(): Uint8Array {
    return this.#buffer.subarray(0, this.#length)
  }

  append(more: Uint8Array): void {
    const length = this.#length + more.length
    if (length > this.#buffer.length) {
      const grown = new Uint8Array(2 * length)
      grown.set(this.bytes)
      this.#buffer = grown
    }
    this.#buffer.set(more, this.#length)
    this.#length = length
  }

  sync(): void {
    this.#syncedLength = this.bytes.length
  }

  /** What is still there whatever a loss of power takes. */
  get sureBytes(): Uint8Array {
    return this.bytes.subarray(0, this.#doubtful[0]?.from ?? this.#syncedLength)
  }

  /** The trap of the real machine: the sync fails, and what was dirty counts as clean from then on. */
  failSync(): void {
    if (this.#syncedLength < this.bytes.length) {
      this.#doubtful.push({ from: this.#syncedLength, to: this.bytes.length })
    }
    this.#syncedLength = this.bytes.length
  }

  /** What a loss of power leaves of it. */
  survivor(choose: Choose): FakeFile {
    const kept = this.bytes.slice()
    let length = this.#tornLength(kept, choose)
    for (const range of [...this.#doubtful].reverse()) {
      const isLast = range.to >= length
      const fate = choose(isLast ? 3 : 2)
      if (fate === 1) kept.fill(0, range.from, range.to)
      if (fate === 2) length = Math.min(length, range.from)
    }
    return new FakeFile(kept.slice(0, length))
  }

  #tornLength(kept: Uint8Array, choose: Choose): number {
    const dirty = this.bytes.length - this.#syncedLength
    if (dirty === 0) return kept.length
    const torn = this.#syncedLength + choose(dirty + 1)
    if (torn === kept.length) return torn
    switch (choose(3)) {
      case 0:
        return torn
      case 1:
        kept.fill(0, torn)
        return kept.length
      default:
        for (let at = torn; at < kept.length; at += 1) kept[at] = (at * 167 + 13) % 256
        return kept.length
    }
  }
}

type NameChange =
  | { readonly type: 'made'; readonly path: string; readonly file: FakeFile }
  | { readonly type: 'removed'; readonly path: string }
  | {
      readonly type: 'moved'
      readonly path: string
      readonly from: string
      readonly file: FakeFile
    }

type Fate = 'pending' | 'doubtful' | 'durable'
interface Recorded {
  readonly change: NameChange
  fate: Fate
}

/** The folder a path stands in; the root is '/', and its own folder. */
export const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/')) || '/'

function applied(names: Map<string, FakeFile>, change: NameChange): void {
  if (change.type === 'removed') names.delete(change.path)
  else names.set(change.path, change.file)
  if (change.type === 'moved') names.delete(change.from)
}

export class FakeMedium {
  readonly folders = new Set<string>(['/'])
  readonly names = new Map<string, FakeFile>()
  #durableNames = new Map<string, FakeFile>()
  #changes: Recorded[] = []

  change(change: NameChange): void {
    applied(this.names, change)
    this.#changes.push({ change, fate: 'pending' })
  }

  syncNames(folder: string): void {
    this.#settle(folder, 'durable')
    while (this.#changes[0]?.fate === 'durable') {
      const first = this.#changes.shift()
      if (first !== undefined) applied(this.#durableNames, first.change)
    }
  }

  /** As with bytes: what failed once to reach the medium is not tried again by a later sync. */
  failSyncNames(folder: string): void {
    this.#settle(folder, 'doubtful')
  }

  /** The files whose names and first bytes survive any loss of power. */
  get sureFiles(): ReadonlyMap<string, FakeFile> {
    const names = new Map(this.#durableNames)
    for (const { change, fate } of this.#changes) if (fate === 'durable') applied(names, change)
    return names
  }

  /** What a loss of power leaves: each name that was not synced is kept or lost by itself. */
  survivor(choose: Choose): FakeMedium {
    const names = new Map(this.#durableNames)
    for (const { change, fate } of this.#changes) {
      if (fate === 'durable' || choose(2) === 1) applied(names, change)
    }
    const left = new FakeMedium()
    for (const folder of this.folders) left.folders.add(folder)
    for (const [path, file] of names) left.place(path, file.survivor(choose))
    return left
  }

  /** Puts a file there as if it had always been. */
  place(path: string, file: FakeFile): void {
    this.names.set(path, file)
    this.#durableNames.set(path, file)
  }

  #settle(folder: string, fate: Fate): void {
    for (const recorded of this.#changes) {
      const isHere = folderOf(recorded.change.path) === folder
      if (isHere && recorded.fate === 'pending') recorded.fate = fate
    }
  }
}
