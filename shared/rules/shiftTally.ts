// What a person has done since their shift began, kept with the person because the board forgets old
// visits. A record that is corrected, taken back or moved changes the count of whoever fed, so it is
// worked out as the difference an event makes to its visit.

import type { NestId, PersonId } from '../base/values.ts'
import { birdsOf, withPerson } from '../board/change.ts'
import type { RoomEvent } from '../board/events.ts'
import type { Board, Person, Round } from '../board/state.ts'
import { isFeed } from './due.ts'

type Counted = Omit<Person['tally'], 'sinceMs' | 'calls'>

const none: Counted = { visits: 0, fed: 0, refused: 0 }

function countedOf(board: Board, round: Round | undefined, nest: NestId): Counted {
  if (!round || round.isTakenBack) return none
  const outcomes = birdsOf(board, nest).flatMap(
    (bird) => bird.feeds.find((feed) => feed.no === round.no)?.outcome ?? [],
  )
  return {
    visits: 1,
    fed: outcomes.filter(isFeed).length,
    refused: outcomes.filter((outcome) => outcome === 'refused').length,
  }
}

/** The visit an event is about, where it changes what was done at one. */
function visitOf(event: RoomEvent): { readonly nest: NestId; readonly no: number } | null {
  switch (event.type) {
    case 'RoundRecorded':
    case 'RoundCorrected':
    case 'RoundTakenBack':
    case 'RoundMoved':
      return event
    default:
      return null
  }
}

const roundAt = (board: Board, nest: NestId, no: number): Round | undefined =>
  board.nests[nest]?.rounds.find((round) => round.no === no)

/** `after` with the count of whoever made the visit; visits from before their shift count for nobody. */
function withVisit(before: Board, after: Board, event: RoomEvent): Board {
  const visit = visitOf(event)
  if (!visit) return after
  const { nest, no } = visit
  const round = roundAt(after, nest, no)
  if (!round) return after
  const was = countedOf(before, roundAt(before, nest, no), nest)
  const is = countedOf(after, round, nest)
  return withPerson(after, round.person, (person) =>
    round.startedAtMs < person.tally.sinceMs
      ? person
      : { ...person, tally: { ...person.tally, ...added(person.tally, was, is) } },
  )
}

const added = (tally: Counted, was: Counted, is: Counted): Counted => ({
  visits: tally.visits + is.visits - was.visits,
  fed: tally.fed + is.fed - was.fed,
  refused: tally.refused + is.refused - was.refused,
})

const withCall = (board: Board, id: PersonId): Board =>
  withPerson(board, id, (person) => ({
    ...person,
    tally: { ...person.tally, calls: person.tally.calls + 1 },
  }))

/** The board after an event, with the counts of the person it is about. */
export function withTally(before: Board, after: Board, event: RoomEvent): Board {
  if (event.type === 'RequestTaken') return withCall(after, event.person)
  if (event.type !== 'ShiftBegun') return withVisit(before, after, event)
  const tally = { sinceMs: event.atMs, calls: 0, ...none }
  return withPerson(after, event.person, (person) => ({ ...person, tally }))
}
