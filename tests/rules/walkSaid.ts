// What the makers of a walk's orders are given, and what they give: shared by the orders of the round and
// those of calls and moves.

import type { BirdId, InstantMs, NestId, PersonId } from '../../shared/base/values.ts'
import type { Board } from '../../shared/board/state.ts'
import type { Order } from '../support/given.ts'
import type { Step } from './walkSteps.ts'

/** Who says it, about which nest. */
export type Aim = { readonly by: PersonId; readonly where: NestId }

/** Everything an order may need, worked out once. */
export type Said = {
  readonly board: Board
  readonly step: Step
  readonly nowMs: InstantMs
  readonly nest: NestId
  readonly birds: readonly BirdId[]
  readonly bird: BirdId
  readonly no: number | undefined
  readonly claimNo: number
  readonly isEven: boolean
}
export type Maker = (said: Said) => Order
