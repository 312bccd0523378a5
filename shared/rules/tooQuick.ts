// Nobody feeds a bird in seconds: such a record is kept, marked, and looked into (ours, no source). What
// the mark does to the record is in rounds.ts, how the lead is told in notices.ts.

import { tooQuickPerBirdMs } from '../board/constants.ts'
import type { Answer } from '../board/parts.ts'
import type { Board, Held, Nest } from '../board/state.ts'
import type { Context } from './context.ts'
import { isFeed } from './due.ts'
import type { News } from './notices.ts'

/** Whether a visit in hand fed its birds, those answered before among them, faster than anybody can. */
export function isQuick(
  board: Board,
  held: Held,
  answers: readonly Answer[],
  context: Context,
): boolean {
  const now = answers.filter((answer) => isFeed(answer.outcome)).map((answer) => answer.bird)
  const before = held.answered.filter((bird) =>
    board.birds[bird]?.feeds.some((feed) => feed.no === held.claimNo && isFeed(feed.outcome)),
  )
  const fed = new Set([...before, ...now]).size
  return now.length > 0 && context.notedAtMs - held.startedAtMs < fed * tooQuickPerBirdMs
}

export const quickNews = (nest: Nest, held: Held, context: Context): News => {
  return { why: 'tooQuick', nest: nest.id, person: context.by, visit: held.claimNo }
}
