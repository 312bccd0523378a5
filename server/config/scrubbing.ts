// Looking through the old days of a room's journal for damage, in the background and slowly: what is
// found stands in the heartbeat and on /health, and stops nothing.

import { dayMs, minuteMs, secondMs } from '../../shared/base/values.ts'
import type { Log } from '../log/log.ts'
import type { TimersPort } from '../scribe/ports.ts'

/** Not while everybody comes back after a start. */
const firstAfterMs = minuteMs
const everyMs = dayMs
/** Between two files, so that a scrub takes no more than its share of the disk. */
const pauseMs = secondMs

export interface Scrubbed {
  readonly id: string
  scrub(pause: () => Promise<void>): Promise<readonly string[]>
}

/** Returns how to stop. */
export function scrubNowAndThen(room: Scrubbed, timers: TimersPort, log: Log): () => void {
  let isStopped = false
  let cancel = timers.after(firstAfterMs, run)
  const pause = () =>
    new Promise<void>((resolve) => {
      timers.after(pauseMs, resolve)
    })

  async function run(): Promise<void> {
    try {
      const found = await room.scrub(pause)
      for (const err of found) log.error({ room: room.id, err }, 'damage was found in an old day')
    } catch (err) {
      log.error({ room: room.id, err }, 'the old days could not be looked through')
    }
    if (!isStopped) cancel = timers.after(everyMs, run)
  }

  return () => {
    isStopped = true
    cancel()
  }
}
