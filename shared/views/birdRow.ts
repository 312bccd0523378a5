// One bird as a handheld lists it: how it is told from its broodmates, how it is fed, and whether
// somebody must look at its crop first. Used by the claim in hand and by a nest's own page.

import type { Amount, BirdId, InstantMs } from '../base/values.ts'
import type { Technique } from '../board/constants.ts'
import type { Hold } from '../board/parts.ts'
import type { Bird, Board, Nest } from '../board/state.ts'
import { birdDueAtMs, lastFedAtMs, planOf, unsureFeed } from '../rules/due.ts'

/** What is known of a crop that may have been filled: nothing to ask, to be looked at, or seen. */
export type CropState = 'notDoubted' | 'look' | 'full' | 'empty' | 'cannotTell'

export type BirdRow = {
  readonly bird: BirdId
  readonly band: string | null
  /** Its place in the brood from 1, for a bird that carries no band. */
  readonly place: number
  readonly species: string | null
  readonly technique: Technique | null
  readonly planned: Amount | null
  readonly cap: Amount | null
  readonly crop: CropState
  /** No amount is shown until somebody has looked and seen that the crop is empty. */
  readonly hidesAmount: boolean
  readonly dueAtMs: InstantMs | null
  readonly lastFedAtMs: InstantMs | null
  readonly hold: Hold | null
  readonly isSettling: boolean
}

/** What the open doubts of a nest say of one of its birds; null where there is none about it. */
function doubtedCrop(nest: Nest, bird: Bird): CropState | null {
  const doubts = nest.doubts.filter((doubt) => doubt.birds.includes(bird.id))
  if (doubts.length === 0) return null
  if (doubts.some((doubt) => !doubt.looked.includes(bird.id))) return 'look'
  const aboutAtMs = Math.max(...doubts.map((doubt) => doubt.aboutAtMs))
  if (bird.seenEmptyAtMs > aboutAtMs) return 'empty'
  return bird.seenFullAtMs >= aboutAtMs ? 'full' : 'cannotTell'
}

/** What was seen in the visit now going on; a look made then stands until the visit is over. */
function seenInVisit({ hands }: Nest, bird: Bird): CropState {
  if (hands.type === 'free') return 'notDoubted'
  const sinceMs = Math.min(hands.claimedAtMs, hands.startedAtMs)
  if (bird.seenEmptyAtMs >= sinceMs) return 'empty'
  return bird.lookedFullAtMs >= sinceMs ? 'full' : 'notDoubted'
}

/**
 * What is known of one bird's crop. A full crop is kept as a feed at the doubtful time, an empty one
 * at the time somebody looked; a look that left neither could not tell. After a visit in which some
 * bird went without and nobody knows which, every crop of the brood is to be looked at.
 */
export function cropState(nest: Nest, bird: Bird): CropState {
  const doubted = doubtedCrop(nest, bird)
  if (doubted) return doubted
  return unsureFeed(bird) ? 'look' : seenInVisit(nest, bird)
}

/** The bird's row; `place` is its place in the brood, from 1. */
export function birdRow(
  board: Board,
  at: { readonly nest: Nest; readonly bird: Bird; readonly place: number },
): BirdRow {
  const { nest, bird, place } = at
  const plan = planOf(board, bird)
  const crop = cropState(nest, bird)
  return {
    bird: bird.id,
    band: bird.band,
    place,
    species: bird.species,
    technique: plan?.technique ?? null,
    planned: plan?.planned ?? null,
    cap: plan?.cap ?? null,
    crop,
    hidesAmount: crop !== 'notDoubted' && crop !== 'empty',
    dueAtMs: birdDueAtMs(board, bird),
    lastFedAtMs: lastFedAtMs(bird),
    hold: bird.hold ?? nest.hold,
    isSettling: bird.standing.type === 'settling',
  }
}
