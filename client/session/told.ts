// What a device was told last, of two tellings. Another epoch is a journal restored from a backup, whose
// numbers begin anew; within one epoch a device never goes back.

import type { Told } from './ports.ts'

export const later = (before: Told, now: Told): Told =>
  now.epoch === before.epoch && now.version < before.version ? before : now
