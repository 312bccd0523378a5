// The answer to a command settled so long ago that its lane no longer keeps it. A record in the
// journal says that it was applied, and at which version; without one nothing came of it, which is
// all that can truthfully be said of an old refusal.

import type { Answer } from '../../shared/wire/frames.ts'
import { answerOf } from '../lanes/fromRecords.ts'
import type { Entry, JournalPort } from './ports.ts'
import { withdrawn } from './turn.ts'

/** Records read at once; between two pages the room goes on. */
const pageMax = 500

export type LaneNumber = { readonly lane: string; readonly n: number }

/** Walks back from `version`. The numbers of a lane only grow, so a lower one ends the walk. */
export async function findAnswer(
  journal: Pick<JournalPort, 'readRecords'>,
  asked: LaneNumber,
  version: number,
): Promise<Answer> {
  for (let to = version; to > 0; to -= pageMax) {
    const from = Math.max(1, to - pageMax + 1)
    const ofLane = (await journal.readRecords({ from, to, limit: pageMax })).filter(
      (record) => numberIn(record, asked.lane) > 0,
    )
    const found = ofLane.find((record) => numberIn(record, asked.lane) === asked.n)
    if (found !== undefined) return answerOf(found)
    if (ofLane.some((record) => numberIn(record, asked.lane) < asked.n)) return withdrawn
  }
  return withdrawn
}

/** The number in `lane` of the command that caused this record; 0 where it was another's. */
const numberIn = ({ cause }: Entry, lane: string): number =>
  cause.type === 'command' && cause.lane === lane ? cause.n : 0
