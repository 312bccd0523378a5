// A screen on the wall of a bench: watching on fakes, and the beat a server would send it.

import { realBrain } from '../../client/session/realBrain.ts'
import { RoomWatch } from '../../client/session/roomWatch.ts'
import type { Beat } from '../../shared/wire/frames.ts'
import { FakeLink } from '../support/fakeLink.ts'
import { FakeTimers } from '../support/fakeTimers.ts'
import { roomMs } from './device.ts'

export const beat = (version: number, more: Partial<Beat> = {}): Beat => ({
  type: 'beat',
  nowMs: roomMs,
  version,
  house: [],
  ...more,
})

/** Nothing but watching, from its first attempt to connect. */
export function wall() {
  const link = new FakeLink()
  const timers = new FakeTimers()
  const complaints: unknown[] = []
  const watch = new RoomWatch({
    link,
    timers,
    chance: () => 0.5,
    complain: (what, error) => complaints.push([what, error]),
    brain: realBrain,
    room: 'meadow',
    screen: 'wall',
  })
  watch.start()
  return { link, timers, complaints, watch }
}
