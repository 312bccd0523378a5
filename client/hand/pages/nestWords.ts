// A nest's state in a few words, for the list and for its own page.

import { unreachable } from '../../../shared/base/control.ts'
import type { NestSummary } from '../../../shared/views/nestState.ts'
import { wholeMinutes } from '../../ui/clock.ts'
import { formerHelper } from '../../ui/words.ts'
import type { Hand } from '../hand.ts'
import { stateWords } from '../words.ts'

export function nestStateWords(hand: Hand, { state }: NestSummary): string {
  switch (state.type) {
    case 'claimed':
      return stateWords.claimed(state.name ?? formerHelper, hand.say.time(state.sinceMs))
    case 'held':
      return stateWords.held(state.reason)
    case 'settling':
      return stateWords.settling
    case 'late':
      return stateWords.late(wholeMinutes(state.lateMs))
    case 'due':
      return stateWords.due
    case 'soon':
      return stateWords.soon(hand.say.time(state.dueAtMs))
    case 'later':
      return stateWords.later(hand.say.time(state.dueAtMs))
    case 'unplanned':
      return stateWords.unplanned
    default:
      return unreachable(state)
  }
}
