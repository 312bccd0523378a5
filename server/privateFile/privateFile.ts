// Names, notes, finders and places of one season: everything about people that the journal and the
// board hold by id alone. Each entry is appended and flushed before the record that names it, and the
// record carries `hashPrivate` of it, so that what is read beside the board is what was written.
// An entry no record names is harmless: a crash came in between.
//
//   {"id":"x7","salt":"<32 hex>","fields":{"name":"…"},"crc":"…"}
//   {"id":"x7","erased":true,"crc":"…"}     what erasing will leave: the id, never given out again
//
// A torn end is kept beside and may hold words about a person: erasing must take those files too.

import { createHash } from 'node:crypto'
import { join } from 'node:path'
import { z } from 'zod'
import { assert } from '../../shared/base/control.ts'
import { canonical } from '../../shared/base/hash.ts'
import type { PrivateId } from '../../shared/base/values.ts'
import { type PrivateRef, privateId } from '../../shared/board/parts.ts'
import type { Names } from '../../shared/wire/frames.ts'
import type { Chance } from '../clock/chance.ts'
import { Appender, type WriteFailed } from '../disk/appender.ts'
import { DamagedFile } from '../disk/damage.ts'
import type { Disk } from '../disk/disk.ts'
import { replaceFile } from '../disk/durable.ts'
import { openSeal, seal } from '../disk/seal.ts'
import { type LineKind, readSealedLines } from '../disk/sealedLines.ts'

/** Words about people, by what they are: `name`, `note`, `finder` … Undefined is as good as absent. */
export type PrivateFields = Readonly<Record<string, string | undefined>>

const entry = z.union([
  z.strictObject({
    id: privateId,
    salt: z.string().regex(/^[0-9a-f]{32}$/),
    fields: z.record(z.string(), z.string()),
  }),
  z.strictObject({ id: privateId, erased: z.literal(true) }),
])

/** Longer entries are refused at the edge; one that got so far would be a mistake of ours. */
const entryMaxBytes = 16_384

export interface PrivatePlace {
  readonly disk: Disk
  /** The folder of one season of one room. */
  readonly dir: string
  readonly chance: Chance
}

export interface OpenedPrivateFile {
  readonly file: PrivateFile
  /** An end that a crash tore: cut off, and kept at `path`. Null where there was none. */
  readonly torn: { readonly path: string; readonly lengthBytes: number } | null
}

const fileName = 'private.ndjson'

/** sha256 of the salt and the fields, in hex: what a record keeps of an entry. */
export const hashPrivate = (salt: string, fields: PrivateFields): string =>
  createHash('sha256')
    .update(salt + canonical(fields))
    .digest('hex')

const entryLine: LineKind<Buffer> = { opensWith: '{"id":"', read: openSeal }

/** Begins the file where there is none. Throws `DamagedFile` on anything but a torn end. */
export async function openPrivateFile(place: PrivatePlace): Promise<OpenedPrivateFile> {
  const { disk, dir } = place
  await disk.makeDir(dir)
  const path = join(dir, fileName)
  const bytes = (await disk.read(path)) ?? new Uint8Array()
  const { sound, soundBytes, rest } = readSealedLines(bytes, entryLine)
  if (rest?.isBeforeSoundLine) {
    throw new DamagedFile(
      path,
      sound.length + 1,
      'badLine',
      'an entry is damaged, others follow it',
    )
  }
  const entries = readEntries(path, sound)
  const torn = rest && {
    path: `${path}.torn-${entries.lastNo + 1}`,
    lengthBytes: rest.bytes.length,
  }
  if (rest && torn) await replaceFile(disk, torn.path, rest.bytes)
  // Written anew whole: a process before this one may have read it from the machine's cache after a
  // sync that failed, when the medium did not have it.
  await replaceFile(disk, path, bytes.subarray(0, soundBytes))
  return { file: new PrivateFile(place.chance, await Appender.open(disk, path), entries), torn }
}

interface Entries {
  readonly fields: Map<PrivateId, PrivateFields>
  readonly lastNo: number
}

function readEntries(path: string, lines: readonly Buffer[]): Entries {
  const fields = new Map<PrivateId, PrivateFields>()
  let lastNo = 0
  lines.forEach((line, at) => {
    const read = entry.safeParse(JSON.parse(line.toString()))
    const refuse = (kind: string, sentence: string) => new DamagedFile(path, at + 1, kind, sentence)
    if (!read.success) throw refuse('unknownFormat', 'a newer program wrote the entry')
    const no = Number(read.data.id.slice(1))
    if (no <= lastNo) throw refuse('outOfOrder', 'the entry does not follow the one before it')
    lastNo = no
    if ('fields' in read.data) fields.set(read.data.id, read.data.fields)
  })
  return { fields, lastNo }
}

export class PrivateFile {
  readonly #chance: Chance
  readonly #appender: Appender
  readonly #fields: Map<PrivateId, PrivateFields>
  #lastNo: number
  /** Lines that are not written yet. */
  #staged = new Map<PrivateId, string>()

  constructor(chance: Chance, appender: Appender, entries: Entries) {
    this.#chance = chance
    this.#appender = appender
    this.#fields = entries.fields
    this.#lastNo = entries.lastNo
  }

  /** Null where there is no such entry, or it was erased. */
  get(id: PrivateId): PrivateFields | null {
    return this.#fields.get(id) ?? null
  }

  all(): ReadonlyMap<PrivateId, PrivateFields> {
    return this.#fields
  }

  /** What the disk said when it failed; null while all is well. Once set, it stays. */
  get failure(): WriteFailed | null {
    return this.#appender.failure
  }

  /** Takes an entry in, to be written by the next `flush`: id and hash for the record to name. */
  stage(fields: PrivateFields): PrivateRef {
    this.#lastNo += 1
    const id = privateId.parse(`x${this.#lastNo}`)
    const salt = Buffer.from(this.#chance.bytes(16)).toString('hex')
    const line = `${seal(JSON.stringify({ id, salt, fields }))}\n`
    assert(Buffer.byteLength(line) <= entryMaxBytes, `private entry ${id} is short enough`)
    this.#staged.set(id, line)
    this.#fields.set(id, fields)
    return { id, hash: hashPrivate(salt, fields) }
  }

  /** Takes back what was staged and not flushed: no record will name it. Its id is not given again. */
  unstage({ id }: PrivateRef): void {
    if (this.#staged.delete(id)) this.#fields.delete(id)
  }

  /** What screens may show of these: names and notes, never finders or places. */
  namesOf(refs: readonly Pick<PrivateRef, 'id'>[]): Names {
    const shown = refs.flatMap(({ id }) => {
      const { name, note } = this.#fields.get(id) ?? {}
      const words = { ...(name !== undefined && { name }), ...(note !== undefined && { note }) }
      return Object.keys(words).length === 0 ? [] : [[id, words] as const]
    })
    return Object.fromEntries(shown)
  }

  /** Everything staged is durable once this returns. One at a time. Throws `WriteFailed`, for good. */
  async flush(): Promise<void> {
    const lines = [...this.#staged.values()].join('')
    if (lines === '' && this.failure === null) return
    this.#staged.clear()
    await this.#appender.append(Buffer.from(lines))
  }

  async close(): Promise<void> {
    await this.#appender.close()
  }
}
