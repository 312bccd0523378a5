// A disk in memory that behaves as badly as a real one may: it loses what was not synced when the
// power goes, fails on demand, writes short, and fills up. All of its calls settle by microtasks
// alone, so a deterministic simulation can drive it; `before` is awaited ahead of each call and may
// delay it, or never return, which stops the program at that very point.
//
//   const disk = new FakeDisk({ choose: seeded })
//   ... the program runs on it ...
//   const after = disk.crash()   // power lost: a legal surviving state; the old disk answers no more
//   const same = disk.kill()     // process lost: the machine's cache lives on

import type { Disk, OpenFile } from '../../server/disk/disk.ts'
import { type Choose, FakeFile, FakeMedium, folderOf } from './fakeMedium.ts'

export type DiskCall =
  | 'list'
  | 'read'
  | 'openAppend'
  | 'write'
  | 'sync'
  | 'close'
  | 'rename'
  | 'remove'
  | 'makeDir'
  | 'syncDir'

export type DiskErrorCode = 'EIO' | 'ENOSPC' | 'EROFS' | 'ENOENT' | 'EBADF' | 'EXDEV'

/** The calls that change the medium: those a read-only or full disk refuses. */
export const changingCalls = [
  'openAppend',
  'write',
  'sync',
  'rename',
  'remove',
  'makeDir',
  'syncDir',
] as const satisfies readonly DiskCall[]

export interface FakeDiskOptions {
  readonly choose: Choose
  /** Awaited before every call; `count` numbers the calls of this disk from 1. */
  readonly before?: (call: DiskCall, count: number) => Promise<void> | void
  readonly medium?: FakeMedium
}

interface Failure {
  readonly calls: readonly DiskCall[]
  readonly code: DiskErrorCode
  readonly lasts: 'once' | 'on'
  left: number
}

export class FakeDisk implements Disk {
  readonly #choose: Choose
  readonly #before: NonNullable<FakeDiskOptions['before']>
  readonly #medium: FakeMedium
  #failures: Failure[] = []
  #isDead = false
  #isShort = false
  #capacityBytes = Number.POSITIVE_INFINITY
  /** Calls begun on this disk, of every kind. */
  callCount = 0
  /** Failures that were dealt out. */
  failureCount = 0

  constructor(options: FakeDiskOptions) {
    this.#choose = options.choose
    this.#before = options.before ?? (() => undefined)
    this.#medium = options.medium ?? new FakeMedium()
  }

  // What tests do to it.

  /** The power is lost: what survives, on a disk of its own. This one never answers again. */
  crash(before?: FakeDiskOptions['before']): FakeDisk {
    return this.#successor(this.#medium.survivor(this.#choose), before)
  }

  /** The process is lost: everything written lives on in the machine, synced or not. */
  kill(before?: FakeDiskOptions['before']): FakeDisk {
    return this.#successor(this.#medium, before)
  }

  #successor(medium: FakeMedium, before: FakeDiskOptions['before']): FakeDisk {
    this.#isDead = true
    return new FakeDisk({ choose: this.#choose, medium, before: before ?? this.#before })
  }

  /** The `nth` such call from now (1 is the next) fails, and only that one. */
  failNth(call: DiskCall, nth: number, code: DiskErrorCode): void {
    this.#failures.push({ calls: [call], code, lasts: 'once', left: nth })
  }

  /** The `nth` call of any changing kind from now fails, and only that one. */
  failNthChange(nth: number, code: DiskErrorCode): void {
    this.#failures.push({ calls: changingCalls, code, lasts: 'once', left: nth })
  }

  /** Every changing call fails from now on, until `heal`. */
  failChanges(code: DiskErrorCode): void {
    this.#failures.push({ calls: changingCalls, code, lasts: 'on', left: 1 })
  }

  /** No new failures, long writes and room for all; what was lost stays lost. */
  heal(): void {
    this.#failures = []
    this.#isShort = false
    this.#capacityBytes = Number.POSITIVE_INFINITY
  }

  /** Writes take any number of bytes from one up. */
  writeShort(): void {
    this.#isShort = true
  }

  /** The disk holds so many bytes and no more: the write that meets the end is short, the next fails. */
  setCapacity(bytes: number): void {
    this.#capacityBytes = bytes
  }

  get usedBytes(): number {
    let sum = 0
    for (const file of this.#medium.names.values()) sum += file.bytes.length
    return sum
  }

  /** Every file by its path, as the program would read it now. */
  get files(): ReadonlyMap<string, Uint8Array> {
    return new Map([...this.#medium.names].map(([path, file]) => [path, file.bytes.slice()]))
  }

  /** What survives whatever happens next: by path, each file with the bytes that are sure. */
  get sureFiles(): ReadonlyMap<string, FakeFile> {
    return this.#medium.sureFiles
  }

  /** Bits of one byte change by themselves, on the medium and for whoever has the file open. */
  rot(path: string, at: number, mask: number): void {
    const bytes = this.#medium.names.get(path)?.bytes
    const byte = bytes?.[at]
    if (bytes !== undefined && byte !== undefined) bytes[at] = byte ^ mask
  }

  /** Puts a file there, durable, whatever stood there before. */
  place(path: string, bytes: Uint8Array): void {
    this.#medium.place(path, new FakeFile(bytes.slice()))
  }

  // The port.

  async list(dir: string): Promise<readonly string[]> {
    await this.#enter('list')
    const paths = [...this.#medium.names.keys(), ...this.#medium.folders]
    return paths
      .filter((path) => path !== dir && folderOf(path) === dir)
      .map((path) => path.slice(path.lastIndexOf('/') + 1))
      .sort()
  }

  async read(path: string): Promise<Uint8Array | null> {
    await this.#enter('read')
    return this.#medium.names.get(path)?.bytes.slice() ?? null
  }

  async openAppend(path: string): Promise<OpenFile> {
    await this.#enter('openAppend')
    if (!this.#medium.folders.has(folderOf(path))) throw diskError('ENOENT', `open ${path}`)
    const file = this.#medium.names.get(path) ?? new FakeFile()
    if (!this.#medium.names.has(path)) this.#medium.change({ type: 'made', path, file })
    return this.#opened(file)
  }

  async rename(from: string, to: string): Promise<void> {
    await this.#enter('rename')
    const file = this.#medium.names.get(from)
    if (file === undefined) throw diskError('ENOENT', `rename ${from}`)
    if (folderOf(from) !== folderOf(to)) throw diskError('EXDEV', `rename ${from} to ${to}`)
    this.#medium.change({ type: 'moved', path: to, from, file })
  }

  async remove(path: string): Promise<void> {
    await this.#enter('remove')
    if (this.#medium.names.has(path)) this.#medium.change({ type: 'removed', path })
  }

  async makeDir(dir: string): Promise<void> {
    await this.#enter('makeDir')
    for (let at = dir; at !== '/'; at = folderOf(at)) this.#medium.folders.add(at)
  }

  async syncDir(dir: string): Promise<void> {
    await this.#enter('syncDir', () => this.#medium.failSyncNames(dir))
    if (!this.#medium.folders.has(dir)) throw diskError('ENOENT', `open ${dir}`)
    this.#medium.syncNames(dir)
  }

  #opened(file: FakeFile): OpenFile {
    let isOpen = true
    const mustBeOpen = () => {
      if (!isOpen) throw diskError('EBADF', 'the file was closed')
    }
    return {
      write: async (bytes) => {
        await this.#enter('write', () =>
          file.append(bytes.slice(0, this.#choose(bytes.length + 1))),
        )
        mustBeOpen()
        return this.#write(file, bytes)
      },
      sync: async () => {
        await this.#enter('sync', () => file.failSync())
        mustBeOpen()
        file.sync()
      },
      close: async () => {
        await this.#enter('close')
        mustBeOpen()
        isOpen = false
      },
    }
  }

  #write(file: FakeFile, bytes: Uint8Array): number {
    const isBounded = this.#capacityBytes !== Number.POSITIVE_INFINITY
    const room = isBounded ? Math.max(0, this.#capacityBytes - this.usedBytes) : bytes.length
    if (room === 0 && bytes.length > 0) throw diskError('ENOSPC', 'write')
    const wanted = this.#isShort && bytes.length > 0 ? 1 + this.#choose(bytes.length) : bytes.length
    const taken = Math.min(wanted, room)
    file.append(bytes.subarray(0, taken))
    return taken
  }

  /** Every call passes here: it may be delayed, may never return, may fail, with `onFail` done to it. */
  async #enter(call: DiskCall, onFail: () => void = () => undefined): Promise<void> {
    this.callCount += 1
    await this.#before(call, this.callCount)
    if (this.#isDead) await new Promise<never>(() => undefined)
    const code = this.#failureFor(call)
    if (code === null) return
    this.failureCount += 1
    onFail()
    throw diskError(code, call)
  }

  #failureFor(call: DiskCall): DiskErrorCode | null {
    for (const failure of this.#failures) {
      if (!failure.calls.includes(call)) continue
      if (failure.left > 1) failure.left -= 1
      else if (failure.left === 1) {
        if (failure.lasts === 'once') failure.left = 0
        return failure.code
      }
    }
    return null
  }
}

const diskError = (code: DiskErrorCode, what: string): Error =>
  Object.assign(new Error(`${code}: ${what}`), { code })
