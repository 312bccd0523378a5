// Lanes rebuilt from the journal: each record names the command that caused it, and that it was
// applied at its version. Asked while a room opens, and by the scribe for an answer long forgotten.

import type { RoomEvent } from '../../shared/board/events.ts'
import type { Answer } from '../../shared/wire/frames.ts'
import type { JournalEntry } from '../journal/record.ts'
import { type Lanes, settle } from './lanes.ts'

/** The answer to the command that made this record, the first time and at every repeat. */
export function answerOf(record: Pick<JournalEntry<RoomEvent>, 'version' | 'events'>): Answer {
  const isSetAside = record.events.some((event) => event.type === 'ReportSetAside')
  return { status: 'applied', version: record.version, ...(isSetAside ? { isSetAside } : {}) }
}

/** Takes the records, in the order of their versions, into the lanes. */
export function learnLanes(lanes: Lanes, records: readonly JournalEntry<RoomEvent>[]): void {
  for (const record of records) {
    if (record.cause.type !== 'command') continue
    const { lane, n } = record.cause
    lanes.set(lane, settle(lanes.get(lane), { n, answer: answerOf(record) }, record.atMs))
  }
}
