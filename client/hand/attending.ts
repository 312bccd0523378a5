// What this handheld is to be noticed for, from what its session knows: calls put to the people signed in
// on it, a room that is not live, a record that has just been saved; and whether anybody here has a nest
// in hand. What is done about each is the attention's own rule.

import type { PersonId } from '../../shared/base/values.ts'
import type { Board, Nest } from '../../shared/board/state.ts'
import { claimOf } from '../../shared/rules/decision.ts'
import { openRequests } from '../../shared/rules/openRequests.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import type { Attention, Call, Moment } from '../attention/attention.ts'
import type { Place } from '../attention/place.ts'
import type { SessionSnapshot } from '../session/sessionSnapshot.ts'

export type Seen = {
  readonly snapshot: Pick<SessionSnapshot, 'board' | 'liveness' | 'pending' | 'signedIn' | 'stuck'>
  readonly place: Place
  readonly monoNowMs: number
}

const nestsInHand = (board: Board, people: readonly PersonId[]): readonly Nest[] =>
  people.flatMap((person) => claimOf(board, person)?.nest ?? [])

/** Calls nobody has taken that are put to one of these people, and those for the very nest in hand. */
function requestCalls(board: Board, people: readonly PersonId[]): readonly Call[] {
  const mine = nestsInHand(board, people).map(({ id }) => id)
  return openRequests(board)
    .filter(({ taken }) => taken === null)
    .flatMap((request): Call[] => {
      const isForMyNest = request.nest !== null && mine.includes(request.nest)
      const isMyOwn = request.by !== null && people.includes(request.by)
      if (isForMyNest && !isMyOwn) {
        return [{ key: `nest ${request.id}`, change: { type: 'alert', level: 'now', isForMyNest } }]
      }
      const isAsked = askedOf(board, request).some((person) => people.includes(person))
      return isAsked ? [{ key: `asked ${request.id}`, change: { type: 'asked' } }] : []
    })
}

/** A bird that is loose where somebody has a door open. */
function shortCalls(board: Board, people: readonly PersonId[]): readonly Call[] {
  const incubators = nestsInHand(board, people).map(({ incubator }) => incubator)
  return Object.values(board.nests)
    .filter(({ short, incubator }) => short !== null && incubators.includes(incubator))
    .map(({ id, short }) => ({
      key: `short ${id} ${short?.no}`,
      change: { type: 'alert', level: 'now', isForMyNest: true },
    }))
}

/** The moment as the attention is told of it. */
export function momentOf({ snapshot, place, monoNowMs }: Seen): Moment {
  const { board, signedIn, liveness } = snapshot
  const holdsClaim = board !== null && nestsInHand(board, signedIn).length > 0
  const calls = board ? [...requestCalls(board, signedIn), ...shortCalls(board, signedIn)] : []
  return {
    around: { holdsClaim, place, isDark: board?.room.isClosed ?? false },
    calls,
    isNotLive: liveness.status === 'notLive',
    monoNowMs,
  }
}

/** Reports of this device that no answer has come for. */
const unanswered = ({ pending }: Seen['snapshot']): ReadonlySet<number> =>
  new Set(
    pending
      .filter(({ kind, state }) => kind === 'report' && state !== 'answered')
      .map(({ n }) => n),
  )

/** Tells the attention at every change of the session; a record answered since then is a saved one. */
export class Attending {
  readonly #attention: Attention
  #waiting: ReadonlySet<number> = new Set()

  constructor(attention: Attention) {
    this.#attention = attention
  }

  see(seen: Seen): void {
    const waiting = unanswered(seen.snapshot)
    const isStuck = (n: number) => seen.snapshot.stuck.some((entry) => entry.n === n)
    const isSaved = [...this.#waiting].some((n) => !waiting.has(n) && !isStuck(n))
    this.#waiting = waiting
    if (isSaved) this.#attention.saved()
    this.#attention.update(momentOf(seen))
  }
}
