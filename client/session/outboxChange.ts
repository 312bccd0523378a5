// What a change does to an outbox, as pure functions: the store in memory is made of them, the one in
// the browser's database uses those for its single row. When a change is made stands in `outbox.ts`.

import type { OutboxAbout, OutboxChange, OutboxContents } from './ports.ts'
import { later } from './told.ts'

export const nothingYet: OutboxAbout = {
  lane: null,
  lastN: 0,
  token: null,
  told: { epoch: 0, version: 0 },
}

export function contentsChanged(contents: OutboxContents, change: OutboxChange): OutboxContents {
  const entries = new Map(contents.entries.map((entry) => [entry.n, entry]))
  for (const n of change.remove ?? []) entries.delete(n)
  for (const entry of change.put ?? []) entries.set(entry.n, entry)
  const stuck = new Map(contents.stuck.map((entry) => [entry.id, entry]))
  for (const id of change.removeStuck ?? []) stuck.delete(id)
  for (const entry of change.putStuck ?? []) stuck.set(entry.id, entry)
  return {
    ...aboutChanged(contents, change),
    entries: [...entries.values()].sort((a, b) => a.n - b.n),
    stuck: [...stuck.values()],
  }
}

/** Numbers of one lane and versions of one epoch never go back, whichever tab writes last. */
export function aboutChanged(about: OutboxAbout, change: OutboxChange): OutboxAbout {
  const { lane, lastN } = change.numbering ?? about
  return {
    lane,
    lastN: lane === about.lane ? Math.max(lastN, about.lastN) : lastN,
    token: change.token ?? about.token,
    told: later(about.told, change.told ?? about.told),
  }
}
