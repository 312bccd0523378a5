// The outbox of a real device, in the browser's own database. Every call is one transaction, and a
// transaction resolves only when the browser says that it is on the medium (`strict`); what was merely
// answered may be `relaxed`, since losing it costs a repeat and no record. One database for a device,
// whatever page or tab is open; the tabs share one lane and the transactions give each its own numbers.

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb'
import { adoption } from '../session/adoption.ts'
import { aboutChanged, nothingYet } from '../session/outboxChange.ts'
import type {
  Noted,
  OutboxAbout,
  OutboxChange,
  OutboxContents,
  OutboxEntry,
  OutboxStore,
  StuckEntry,
} from '../session/ports.ts'

interface OutboxSchema extends DBSchema {
  entries: { key: number; value: OutboxEntry }
  stuck: { key: string; value: StuckEntry }
  /** One row: everything that is not a list. */
  about: { key: 'outbox'; value: OutboxAbout }
}

const tables = ['entries', 'stuck', 'about'] as const
type Writing = IDBPTransaction<OutboxSchema, typeof tables, 'readwrite'>
type Reading = IDBPTransaction<OutboxSchema, typeof tables, 'readonly'>

/** Raised together with a step in `upgrade` that lifts what older pages wrote. */
const databaseVersion = 1

/** Opens, or makes, the outbox of this name; rejects where the browser has no database for us. */
export async function openIndexedDbOutbox(name: string): Promise<OutboxStore & { close(): void }> {
  const database = await openDB<OutboxSchema>(name, databaseVersion, {
    upgrade(fresh) {
      fresh.createObjectStore('entries', { keyPath: 'n' })
      fresh.createObjectStore('stuck', { keyPath: 'id' })
      fresh.createObjectStore('about')
    },
    // A page of a newer version waits for this one to let go; this one is reloaded next.
    blocking(_version, _newer, event) {
      if (event.target instanceof IDBDatabase) event.target.close()
    },
  })
  return new IndexedDbOutbox(database)
}

class IndexedDbOutbox implements OutboxStore {
  readonly #database: IDBPDatabase<OutboxSchema>

  constructor(database: IDBPDatabase<OutboxSchema>) {
    this.#database = database
  }

  async load(): Promise<OutboxContents> {
    const reading = this.#database.transaction(tables)
    const contents = await readAll(reading)
    await reading.done
    return contents
  }

  add(noted: Noted, insteadOf?: string): Promise<OutboxEntry> {
    return this.#inOne('strict', async (writing) => {
      const about = await readAbout(writing)
      const n = about.lastN + 1
      const entry: OutboxEntry = { ...noted, n, standing: { type: 'waiting' } }
      await writing.objectStore('entries').add(entry)
      await writing.objectStore('about').put({ ...about, lastN: n }, 'outbox')
      if (insteadOf !== undefined) await writing.objectStore('stuck').delete(insteadOf)
      return entry
    })
  }

  write(change: OutboxChange): Promise<void> {
    return this.#inOne(durabilityOf(change), (writing) => apply(writing, change))
  }

  adopt(lane: string, laneN: number): Promise<OutboxContents & { readonly isRenumbered: boolean }> {
    return this.#inOne('strict', async (writing) => {
      const adopted = adoption(await readAll(writing), lane, laneN)
      if (adopted !== null) await apply(writing, adopted.change)
      return { ...(await readAll(writing)), isRenumbered: adopted?.isRenumbered ?? false }
    })
  }

  close(): void {
    this.#database.close()
  }

  /** Runs `work` in one transaction and resolves when that is durable; a failure undoes all of it. */
  async #inOne<T>(
    durability: IDBTransactionDurability,
    work: (writing: Writing) => Promise<T>,
  ): Promise<T> {
    const writing = this.#database.transaction(tables, 'readwrite', { durability })
    try {
      const [result] = await Promise.all([work(writing), writing.done])
      return result
    } catch (error) {
      await undo(writing)
      throw error
    }
  }
}

/** A transaction that has ended by itself cannot be aborted; then there is nothing left to undo. */
async function undo(writing: Writing): Promise<void> {
  try {
    writing.abort()
  } catch (error) {
    if (!(error instanceof DOMException)) throw error
  }
  await writing.done.catch(() => undefined)
}

/** Only the standing of what was sent before may be lost: it is sent again and gets its first answer. */
const durabilityOf = ({ putStuck, removeStuck, numbering, token }: OutboxChange) =>
  putStuck || removeStuck || numbering || token ? 'strict' : 'relaxed'

async function readAbout(reading: Reading | Writing): Promise<OutboxAbout> {
  return (await reading.objectStore('about').get('outbox')) ?? nothingYet
}

async function readAll(reading: Reading | Writing): Promise<OutboxContents> {
  const [about, entries, stuck] = await Promise.all([
    readAbout(reading),
    reading.objectStore('entries').getAll(),
    reading.objectStore('stuck').getAll(),
  ])
  return { entries, stuck, ...about }
}

async function apply(writing: Writing, change: OutboxChange): Promise<void> {
  const entries = writing.objectStore('entries')
  const stuck = writing.objectStore('stuck')
  const about = await readAbout(writing)
  for (const n of change.remove ?? []) await entries.delete(n)
  for (const entry of change.put ?? []) await entries.put(entry)
  for (const id of change.removeStuck ?? []) await stuck.delete(id)
  for (const entry of change.putStuck ?? []) await stuck.put(entry)
  await writing.objectStore('about').put(aboutChanged(about, change), 'outbox')
}
