// The room's pace in one line, the same on the wall and on the desk.

import { unreachable } from '../../shared/base/control.ts'
import type { Pace } from '../../shared/views/wallPace.ts'
import { minutesWords } from './words.ts'

const nests = (n: number): string => (n === 1 ? '1 nest' : `${n} nests`)

/** The line of pace. */
export function paceWords(pace: Pace, time: (atMs: number) => string): string {
  switch (pace.type) {
    case 'keepingUp':
      return 'Keeping up.'
    case 'behind':
      return `${minutesWords(pace.minutes)} behind.`
    case 'openingRound':
      return `Opening round: ${pace.left} of ${nests(pace.of)} still to feed.`
    case 'lastRound':
      return pace.left === 0
        ? `Last round: all are fed. Lights out ${time(pace.closesAtMs)}.`
        : `Last round: ${nests(pace.left)} to feed by ${time(pace.closesAtMs)}.`
    case 'closed':
      return 'Lights out.'
    default:
      return unreachable(pace)
  }
}
