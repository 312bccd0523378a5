// The journal as bytes in files, read by code that shares nothing with the program under test: the
// format is taken from its description (one JSON object a line, `prev`, then `hash` over the text
// before it, then `crc`), so that a mistake in the program's own reader cannot hide one in its writer.
// Reads on from where it stopped, after each kill, while no process is writing.

import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { crc32 } from 'node:zlib'

export type DiskRecord = {
  readonly version: number
  readonly epoch: number
  readonly room: string
  readonly atMs: number
  readonly cause: {
    readonly type: string
    readonly lane?: string
    readonly n?: number
  }
  readonly by: string | null
  readonly device: string | null
  readonly events: readonly unknown[]
  readonly prev: string
  readonly hash: string
}

export type ReadOn = {
  readonly records: readonly DiskRecord[]
  /** Each a sentence: a damaged line, a broken chain, a missing version. */
  readonly flaws: readonly string[]
}

const firstPrev = '0'.repeat(64)
const fileName = /^(\d{12})-\d{4}-\d{2}-\d{2}\.journal$/

/** What one line says, or null when its checksum or hash is not right. */
export function readLine(line: Buffer): DiskRecord | null {
  const crcAt = line.lastIndexOf(',"crc":"')
  const hashAt = line.lastIndexOf(',"hash":"')
  if (crcAt === -1 || hashAt === -1 || hashAt > crcAt) return null
  const crc = crc32(line.subarray(0, crcAt)).toString(16).padStart(8, '0')
  if (line.toString('latin1', crcAt) !== `,"crc":"${crc}"}`) return null
  const hash = hashOf(line.subarray(0, hashAt))
  if (line.toString('latin1', hashAt, crcAt) !== `,"hash":"${hash}"`) return null
  return JSON.parse(line.toString())
}

/** Of a record's text up to and without its hash field; the closing brace counts. */
export const hashOf = (textBeforeHash: Uint8Array): string =>
  createHash('sha256').update(textBeforeHash).update('}').digest('hex')

const filesIn = (dir: string): readonly string[] =>
  readdirSync(dir)
    .filter((name) => fileName.test(name))
    .sort()

export class JournalOnDisk {
  readonly #dir: string
  #version = 0
  #hash: string | null = firstPrev
  #file = ''
  #readBytes = 0

  constructor(dir: string) {
    this.#dir = dir
  }

  /** The last version read. */
  get version(): number {
    return this.#version
  }

  /** Everything behind what was read before. A torn line at the very end is left for the next time. */
  readOn(): ReadOn {
    const records: DiskRecord[] = []
    const flaws: string[] = []
    const lines = filesIn(this.#dir)
      .filter((name) => name >= this.#file)
      .flatMap((name) => this.#newLines(name, flaws))
    const lastSound = lines.findLastIndex(({ record }) => record !== null)
    for (const { name, record, endBytes } of lines.slice(0, lastSound + 1)) {
      if (record === null) {
        flaws.push(`${name}: a damaged line stands before a sound one`)
        this.#hash = null
      } else {
        flaws.push(...this.#follow(record, name))
        records.push(record)
      }
      this.#file = name
      this.#readBytes = endBytes
    }
    return { records, flaws }
  }

  #newLines(name: string, flaws: string[]) {
    const bytes = readFileSync(join(this.#dir, name))
    const from = name === this.#file ? this.#readBytes : 0
    if (bytes.length < from) flaws.push(`${name}: became shorter than it was`)
    const lines: { name: string; record: DiskRecord | null; endBytes: number }[] = []
    for (let at = from, end = bytes.indexOf(10, at); end !== -1; end = bytes.indexOf(10, at)) {
      lines.push({ name, record: readLine(bytes.subarray(at, end)), endBytes: end + 1 })
      at = end + 1
    }
    return lines
  }

  #follow(record: DiskRecord, name: string): readonly string[] {
    const flaws: string[] = []
    const { version } = record
    if (version !== this.#version + 1) {
      flaws.push(`${name}: version ${version} follows version ${this.#version}`)
    }
    if (this.#hash !== null && record.prev !== this.#hash) {
      flaws.push(`${name}: version ${version} is not chained to the record before it`)
    }
    if (name !== this.#file && Number(name.slice(0, 12)) !== version) {
      flaws.push(`${name}: begins with version ${version}`)
    }
    this.#version = version
    this.#hash = record.hash
    return flaws
  }
}
