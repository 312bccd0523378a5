// What is done to birds and nests beside feeding: holds, arrivals, looks; and what a device could not
// hand over.

import type { BirdId, InstantMs, NestId } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import type { Acting } from './acting.ts'
import { home } from './page.ts'

export class BroodActions {
  readonly #acting: Acting

  constructor(acting: Acting) {
    this.#acting = acting
  }

  holdBird(nest: NestId, bird: BirdId, why: { reason: string; atMs: InstantMs }): Promise<void> {
    return this.#acting.reportAndGo(
      { type: 'HoldBird', v: 1, bird, reason: why.reason, lookAgainAtMs: why.atMs },
      { type: 'nest', nest },
    )
  }

  holdNest(nest: NestId, why: { reason: string; atMs: InstantMs }): Promise<boolean> {
    return this.#acting.ask(
      { type: 'SetHold', v: 1, nest, reason: why.reason, lookAgainAtMs: why.atMs },
      { type: 'nest', nest },
    )
  }

  liftHold(nest: NestId, bird: BirdId | null, whyLifted: string): Promise<boolean> {
    const which = bird ? { bird } : {}
    return this.#acting.ask(
      { type: 'LiftHold', v: 1, nest, ...which, whyLifted },
      { type: 'nest', nest },
    )
  }

  release(
    nest: NestId,
    { birds, plan }: Pick<CommandOf<'ReleaseArrival'>, 'birds' | 'plan'>,
  ): Promise<boolean> {
    return this.#acting.ask({ type: 'ReleaseArrival', v: 1, birds, plan }, { type: 'nest', nest })
  }

  /** One look into a box is a look at every bird in it that still settles. */
  async sawDroppings(
    nest: NestId,
    birds: readonly BirdId[],
    droppings: 'seen' | 'none',
  ): Promise<void> {
    for (const bird of birds) {
      const seen = { type: 'BirdSeen', v: 1, bird, droppings } as const
      if (!(await this.#acting.report({ ...seen, signs: [] }))) return
    }
    this.#acting.goTo({ type: 'nest', nest })
  }

  fluidsGiven(nest: NestId, given: Omit<CommandOf<'FluidsGiven'>, 'type' | 'v'>): Promise<void> {
    return this.#acting.reportAndGo({ type: 'FluidsGiven', v: 1, ...given }, { type: 'nest', nest })
  }

  boxArrived(box: Omit<CommandOf<'BoxArrived'>, 'type' | 'v'>): Promise<void> {
    return this.#acting.reportAndGo({ type: 'BoxArrived', v: 1, ...box }, home)
  }

  sendAgain(id: string): void {
    void this.#acting.session.retryStuck(id)
  }

  drop(id: string): void {
    void this.#acting.session.forgetStuck(id)
  }
}
