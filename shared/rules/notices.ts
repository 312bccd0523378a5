// What the lead is told, once: a late nest nobody takes, a record made too quickly to be true, a call
// nobody can answer. A notice names no remedy and fetches nobody; it goes when a lead has read it.

import type { InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import { withCounter } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { type NoticeReason, noticesMax } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, type Events, happened, nothingNew } from './decision.ts'

export type News = {
  readonly why: NoticeReason
  readonly nest?: NestId | undefined
  readonly person?: PersonId | undefined
  readonly visit?: number | undefined
  readonly request?: RequestId | undefined
}

/** The event that tells the lead this; none while the same still stands unread of the same person. */
export function leadTold(board: Board, news: News, nowMs: InstantMs): Events {
  const isUnread = board.notices.some(
    (notice) =>
      notice.why === news.why &&
      notice.person === (news.person ?? null) &&
      (news.why === 'tooQuick' || notice.nest === (news.nest ?? null)) &&
      notice.request === (news.request ?? null),
  )
  if (isUnread && news.person !== undefined) return []
  const { why, nest, person, visit, request } = news
  return [
    {
      ...{ type: 'LeadTold', v: 1, no: board.counters.notice + 1, why, atMs: nowMs },
      ...(nest ? { nest } : {}),
      ...(person ? { person } : {}),
      ...(visit ? { visit } : {}),
      ...(request ? { request } : {}),
    },
  ]
}

/** Several things told in one turn, each under a number of its own. */
export function leadToldAll(board: Board, all: readonly News[], nowMs: InstantMs): Events {
  let after = board
  return all.flatMap((news) => {
    const events = leadTold(after, news, nowMs)
    after = events.reduce(
      (next, event) => (event.type === 'LeadTold' ? evolveLeadTold(next, event) : next),
      after,
    )
    return events
  })
}

export function decideAcknowledge(
  board: Board,
  command: CommandOf<'Acknowledge'>,
  context: Context,
): Decision {
  if (!board.notices.some((notice) => notice.no === command.notice)) return nothingNew
  const seen = { no: command.notice, by: context.by, atMs: context.nowMs }
  return happened({ type: 'NoticeSeen', v: 1, ...seen })
}

/** The oldest unread one gives way when there are too many: a list nobody reads must not grow. */
export function evolveLeadTold(board: Board, event: EventOf<'LeadTold'>): Board {
  const { no, why, atMs } = event
  const about = {
    nest: event.nest ?? null,
    person: event.person ?? null,
    visit: event.visit ?? null,
    request: event.request ?? null,
  }
  const notices = [...board.notices, { no, why, atMs, ...about }].slice(-noticesMax)
  return withCounter({ ...board, notices }, 'notice', no)
}

export const evolveNoticeSeen = (board: Board, event: EventOf<'NoticeSeen'>): Board => ({
  ...board,
  notices: board.notices.filter((notice) => notice.no !== event.no),
})
