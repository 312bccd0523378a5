// Planted mistakes in the rules of offers, calls, counts and pairs, as they could stand in the rules
// themselves.

import type { RoomBrain } from '../../server/room/realBrain.ts'
import { ok } from '../../shared/base/control.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board, Person } from '../../shared/board/state.ts'

/** Decisions and time rules without the events of these kinds. */
function without(brain: RoomBrain, isGone: (event: RoomEvent) => boolean): RoomBrain {
  const kept = (events: readonly RoomEvent[]) => events.filter((event) => !isGone(event))
  return {
    ...brain,
    decide: (board, command, context) => {
      const decided = brain.decide(board, command, context)
      return decided.ok ? ok(kept(decided.value)) : decided
    },
  }
}

const isTwice = (event: RoomEvent) => event.type === 'DoubtRaised' && event.kind === 'twice'

export const withoutPairs = (brain: RoomBrain): RoomBrain => without(brain, isTwice)

/** A pair once told of stays, whatever became of its records. */
export const keepingPairs = (brain: RoomBrain): RoomBrain =>
  without(brain, (event) => event.type === 'DoubtEnded' && event.how === 'notTwice')

export const shruggingAtCounts = (brain: RoomBrain): RoomBrain =>
  without(brain, (event) => event.type === 'BirdsShort')

/** The rules about time as if they were shown another board. */
function timeSeeing(brain: RoomBrain, change: (board: Board) => Board): RoomBrain {
  const known = new WeakMap<Board, Board>()
  const seen = (board: Board): Board => {
    const changed = known.get(board) ?? change(board)
    known.set(board, changed)
    return changed
  }
  return {
    ...brain,
    decideTime: (board, nowMs) => brain.decideTime(seen(board), nowMs),
    nextWakeAtMs: (board) => brain.nextWakeAtMs(seen(board)),
  }
}

const withEveryPerson = (board: Board, change: (person: Person) => Person): Board => ({
  ...board,
  people: Object.fromEntries(
    Object.entries(board.people).map(([id, person]) => [id, change(person)]),
  ),
})

/** Whoever is at home, or on a break, is asked like everybody else. */
export const askingTheAbsent = (brain: RoomBrain): RoomBrain =>
  timeSeeing(brain, (board) => withEveryPerson(board, (person) => ({ ...person, shift: 'on' })))

/** A trainee is taken for a volunteer. */
export function forgettingMentors(brain: RoomBrain): RoomBrain {
  const grown = (board: Board): Board =>
    withEveryPerson(board, (person) =>
      person.role === 'trainee' ? { ...person, role: 'volunteer' } : person,
    )
  return {
    ...brain,
    decide: (board, command, context) =>
      command.type === 'ClaimNest'
        ? brain.decide(grown(board), command, context)
        : brain.decide(board, command, context),
  }
}

/** Who comes second takes the call out of the first one's hands. */
export function handingCallsOn(brain: RoomBrain): RoomBrain {
  return {
    ...brain,
    decide: (board, command, context) => {
      const decided = brain.decide(board, command, context)
      if (decided.ok || decided.error.code !== 'RequestTaken') return decided
      if (command.type !== 'TakeRequest') return decided
      const { request } = command
      return ok([{ type: 'RequestTaken', v: 1, request, person: context.by, atMs: context.nowMs }])
    },
  }
}

/** Refusals are written down and fetch nobody. */
export const fetchingNobody = (brain: RoomBrain): RoomBrain =>
  timeSeeing(brain, (board) => ({
    ...board,
    birds: Object.fromEntries(
      Object.entries(board.birds).map(([id, bird]) => [
        id,
        { ...bird, fetchedForNo: Number.MAX_SAFE_INTEGER },
      ]),
    ),
  }))

/** What was asked of one person is never asked of the next, and never ends. */
export const offeringForEver = (brain: RoomBrain): RoomBrain => {
  const endless = (events: readonly RoomEvent[]) =>
    events.map((event) =>
      event.type === 'OfferMade' ? { ...event, endsAtMs: event.endsAtMs + 3_600_000 } : event,
    )
  return { ...brain, decideTime: (board, nowMs) => endless(brain.decideTime(board, nowMs)) }
}
