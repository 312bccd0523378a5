// The log: one JSON line an event on stderr, for whoever keeps the machine. It knows devices, lanes and
// codes and never a name, a note, a PIN, a token or the body of a command: those have their own files.

import { pino } from 'pino'

/** Ids, codes and numbers only; a type that leaves no place for a text somebody typed. */
export type LogFields = Readonly<{
  room?: string
  device?: string
  lane?: string
  n?: number
  code?: string
  port?: number
  version?: number
  epoch?: number
  count?: number
  speed?: number
  protocol?: number
  err?: unknown
}>

export interface Log {
  info(fields: LogFields, what: string): void
  warn(fields: LogFields, what: string): void
  error(fields: LogFields, what: string): void
}

/** Written at once, so that the last line before a crash is there. */
export function stderrLog(): Log {
  return pino({ base: null }, pino.destination({ dest: 2, sync: true }))
}
