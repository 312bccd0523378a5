// The rules of the room, put together as the scribe and the room use them. Nothing is decided here.

import { hashBoard } from '../../shared/board/boardHash.ts'
import { readEvents } from '../../shared/board/events.ts'
import { decide } from '../../shared/rules/decide.ts'
import { evolve } from '../../shared/rules/evolve.ts'
import { civilOffsetEvents, foundingEvents, openingEvents } from '../../shared/rules/founding.ts'
import { decideTime, nextWakeAtMs } from '../../shared/rules/time.ts'

export const realBrain = {
  ...{ decide, evolve, decideTime, nextWakeAtMs, readEvents, hashBoard },
  ...{ civilOffsetEvents, foundingEvents, openingEvents },
}

/** A brain for a whole room; a test may bring its own. */
export type RoomBrain = typeof realBrain
