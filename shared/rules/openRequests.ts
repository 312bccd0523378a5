// Which open request stands on a bird, and which one a person has taken: asked by the rules of feeding
// and of offers. How requests come and go is in requests.ts.

import type { BirdId, PersonId } from '../base/values.ts'
import type { Bird, Board, Request } from '../board/state.ts'

export const openRequests = (board: Board): readonly Request[] => Object.values(board.requests)

/** The open fluid request that stands on this bird; it is not fed until that is resolved. */
export const requestOn = (board: Board, bird: Bird): Request | null =>
  onBirds(board.requests).get(bird.id) ?? null

const known = new WeakMap<Board['requests'], ReadonlyMap<BirdId, Request>>()

/** Asked for every bird at every look at what is due, so it is kept as long as the requests stand. */
function onBirds(requests: Board['requests']): ReadonlyMap<BirdId, Request> {
  const before = known.get(requests)
  if (before) return before
  const found = new Map<BirdId, Request>()
  for (const one of Object.values(requests)) {
    if (one.kind === 'fluids' && one.bird) found.set(one.bird, one)
  }
  known.set(requests, found)
  return found
}

export const requestTakenBy = (board: Board, person: PersonId): Request | null =>
  openRequests(board).find((one) => one.taken?.person === person) ?? null
