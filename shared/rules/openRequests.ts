// Which open request stands on a bird, and which one a person has taken: asked by the rules of feeding
// and of offers. How requests come and go is in requests.ts.

import type { PersonId } from '../base/values.ts'
import type { Bird, Board, Request } from '../board/state.ts'

export const openRequests = (board: Board): readonly Request[] => Object.values(board.requests)

/** The open fluid request that stands on this bird; it is not fed until that is resolved. */
export const requestOn = (board: Board, bird: Bird): Request | null =>
  openRequests(board).find((one) => one.kind === 'fluids' && one.bird === bird.id) ?? null

export const requestTakenBy = (board: Board, person: PersonId): Request | null =>
  openRequests(board).find((one) => one.taken?.person === person) ?? null
