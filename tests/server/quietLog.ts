// A log for tests that keeps what it was told instead of writing it.

import type { Log, LogFields } from '../../server/log/log.ts'

export const quietLog: Log = {
  info: () => undefined,
  warn: () => undefined,
  error: () => undefined,
}

export type Line = { readonly fields: LogFields; readonly what: string }

/** Every line told, so that a test can say that nothing private is among them or nothing broke. */
export function keptLog(): { readonly log: Log; readonly lines: readonly Line[] } {
  const lines: Line[] = []
  const keep = (fields: LogFields, what: string) => {
    lines.push({ fields, what })
  }
  return { log: { info: keep, warn: keep, error: keep }, lines }
}
