// A journal of plain notes for the tests: what a journal does has nothing to do with what its events
// mean, so they mean nothing here. Entries are made from their version alone.

import { z } from 'zod'
import type { Disk } from '../../../server/disk/disk.ts'
import { type Journal, openJournal } from '../../../server/journal/journal.ts'
import type { ChainHead, JournalEntry, JournalRecord } from '../../../server/journal/record.ts'
import type { Torn } from '../../../server/journal/repair.ts'

const note = z.strictObject({ type: z.literal('Noted'), v: z.literal(1), n: z.int() })
export type Note = z.infer<typeof note>

export const room = 'nursery'
export const parseEvents = (raw: unknown): readonly Note[] => z.array(note).parse(raw)

export const startMs = Date.UTC(2026, 4, 22, 12)
export const friday = '2026-05-22'
export const saturday = '2026-05-23'

/** The entry of one version; `n` tells two tries at the same version apart. */
export const entry = (version: number, n = version): JournalEntry<Note> => ({
  version,
  epoch: 1,
  atMs: startMs + version * 1_000,
  cause: { type: 'command', lane: 'd1', n },
  by: null,
  device: 'd1',
  events: [{ type: 'Noted', v: 1, n }],
})

export const entries = (from: number, to: number): readonly JournalEntry<Note>[] =>
  Array.from({ length: to - from + 1 }, (_, at) => entry(from + at))

export interface OpenedNotes {
  readonly journal: Journal<Note>
  readonly records: readonly JournalRecord<Note>[]
  readonly torn: readonly Torn[]
}

export async function openNotes(disk: Disk, dir: string, after?: ChainHead): Promise<OpenedNotes> {
  const records: JournalRecord<Note>[] = []
  const onRecord = (record: JournalRecord<Note>) => {
    records.push(record)
  }
  const place = { disk, dir, room, parseEvents, onRecord }
  const { journal, torn } = await openJournal(after === undefined ? place : { ...place, after })
  return { journal, records, torn }
}

export const versionsOf = (records: readonly JournalRecord<Note>[]): readonly number[] =>
  records.map((record) => record.version)
