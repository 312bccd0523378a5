// The private file as bytes, read by code of our own: every id that a record names must stand there
// whole, with the words the record's hash was made of, because a name that comes after its record is
// a name that a kill can lose.

import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

type Entry = { readonly id: string; readonly salt: string; readonly fields: object }
type Ref = { readonly id: string; readonly hash: string }

/** The refs among an event's own fields. */
export function refsIn(events: readonly unknown[]): readonly Ref[] {
  return events.flatMap((event) => Object.values(event as object).filter(isRef))
}

const isRef = (field: unknown): field is Ref =>
  typeof field === 'object' && field !== null && 'id' in field && 'hash' in field

/** A sentence for each ref that the private file in `dir` does not keep. */
export function notKept(dir: string, refs: readonly Ref[]): readonly string[] {
  if (refs.length === 0) return []
  const file = join(dir, 'private.ndjson')
  // What follows the last line feed is half an entry, which nothing may name.
  const lines = existsSync(file) ? readFileSync(file, 'utf8').split('\n').slice(0, -1) : []
  const entries = lines.map((line): Entry => JSON.parse(line))
  const hashes = new Map(entries.map((entry) => [entry.id, hashOf(entry)]))
  return refs
    .filter(({ id, hash }) => hashes.get(id) !== hash)
    .map(({ id }) => `${id} is named and its words are not kept`)
}

/** Of the salt and the fields as JSON with their keys in order. */
export function hashOf({ salt, fields }: Pick<Entry, 'salt' | 'fields'>): string {
  const inOrder = Object.entries(fields).sort(([a], [b]) => (a < b ? -1 : 1))
  const text = JSON.stringify(Object.fromEntries(inOrder))
  return createHash('sha256').update(`${salt}${text}`).digest('hex')
}
