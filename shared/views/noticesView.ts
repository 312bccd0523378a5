// What the lead is told and has not read yet. A quiet list: it takes no page and fetches nobody, and
// what it says of one person's record is for the lead alone.

import type { InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import type { NoticeReason } from '../board/constants.ts'
import { hasRight } from '../board/rights.ts'
import type { Board, Notice } from '../board/state.ts'
import { nameOf, type PublicNames } from './names.ts'

export type NoticeShown = {
  readonly no: number
  readonly why: NoticeReason
  readonly atMs: InstantMs
  readonly nest: { readonly nest: NestId; readonly label: string } | null
  readonly name: string | null
  /** The call it is about, while that is still open. */
  readonly request: RequestId | null
}

function shown(board: Board, names: PublicNames, notice: Notice): NoticeShown {
  const nest = notice.nest ? board.nests[notice.nest] : undefined
  return {
    ...{ no: notice.no, why: notice.why, atMs: notice.atMs },
    nest: nest ? { nest: nest.id, label: nest.label } : null,
    name: nameOf(board, names, notice.person),
    request: notice.request && board.requests[notice.request] ? notice.request : null,
  }
}

/** The unread notices, latest first; none for anybody but a lead. */
export function noticesView(
  board: Board,
  names: PublicNames,
  person: PersonId,
): readonly NoticeShown[] {
  const actor = board.people[person]
  if (!actor || !hasRight(actor, 'lead')) return []
  return [...board.notices].reverse().map((notice) => shown(board, names, notice))
}
