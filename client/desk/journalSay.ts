// What the sentences of the journal are given, and the shape of a set of them.

import type { EventOf, EventType } from '../../shared/board/events.ts'
import type { Say } from '../ui/words.ts'

/** How the facts' ids are read out; a bird with its nest, as "red of F". */
export type JournalSay = Pick<Say, 'time'> & {
  readonly person: (person: string) => string
  readonly nest: (nest: string) => string
  readonly bird: (bird: string) => string
  readonly incubator: (incubator: string) => string
  readonly plan: (plan: string) => string
}

/** A sentence for each of these kinds of fact. */
export type Lines<Type extends EventType> = {
  readonly [One in Type]: (event: EventOf<One>, say: JournalSay) => string
}
