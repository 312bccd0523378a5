// The birds a draft is about: those of the claim in hand, or the whole nest where a feed of before is
// entered. Asked by the pages of one bird and of an unmarked brood, which serve both.

import type { NestId } from '../../shared/base/values.ts'
import type { BirdRow } from '../../shared/views/birdRow.ts'
import type { ClaimView } from '../../shared/views/claimView.ts'
import { nestView } from '../../shared/views/nestView.ts'
import { asLooked } from './draft.ts'
import type { Served } from './hand.ts'
import { claimKey, draftOf } from './ui.ts'

export type Visit = {
  readonly nest: NestId
  readonly label: string
  readonly rows: readonly BirdRow[]
  readonly key: string
  /** A feed said afterwards does not look at crops. */
  readonly looks: boolean
}

/** Null where the nest, or the claim the draft was made for, is there no more. */
export function visitOf(
  hand: Served,
  claim: ClaimView | null,
  of: { readonly nest: NestId; readonly draft: string },
): Visit | null {
  const { nest, draft: key } = of
  const draft = draftOf(hand.ui, key)
  if (claim && key === claimKey(claim.claimNo)) {
    const { label, birds } = claim
    return { nest: claim.nest, label, rows: asLooked(draft, birds), key, looks: true }
  }
  const { person, nowMs } = hand
  const view = nestView(hand.board, hand.names, { nest, person, nowMs })
  if (!view || draft.saidAtMs === null) return null
  return { nest, label: view.summary.label, rows: view.birds, key, looks: false }
}
