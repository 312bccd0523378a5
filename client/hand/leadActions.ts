// What a lead does in the round beside holds and arrivals: asking one person to take a nest, moving a
// brood or a bird, naming a mentor, reading what they are told.

import type { BirdId, IncubatorId, NestId, PersonId } from '../../shared/base/values.ts'
import type { Acting } from './acting.ts'

export class LeadActions {
  readonly #acting: Acting

  constructor(acting: Acting) {
    this.#acting = acting
  }

  offer(nest: NestId, person: PersonId): Promise<boolean> {
    return this.#acting.ask({ type: 'OfferNest', v: 1, nest, person }, { type: 'nest', nest })
  }

  moveNest(nest: NestId, incubator: IncubatorId): Promise<boolean> {
    return this.#acting.ask({ type: 'MoveNest', v: 1, nest, incubator }, { type: 'nest', nest })
  }

  /** `decided`: somebody has thought about the quarantine and said so. */
  moveBird(bird: BirdId, nest: NestId, quarantine: 'same' | 'decided'): Promise<boolean> {
    const said = quarantine === 'decided' ? ({ isQuarantineDecided: true } as const) : {}
    return this.#acting.ask({ type: 'MoveBird', v: 1, bird, nest, ...said }, { type: 'nest', nest })
  }

  setMentor(person: PersonId, mentor: PersonId | null): Promise<boolean> {
    return this.#acting.ask(
      { type: 'SetMentor', v: 1, person, mentor },
      { type: 'mentors', trainee: null },
    )
  }

  acknowledge(notice: number): Promise<boolean> {
    return this.#acting.ask({ type: 'Acknowledge', v: 1, notice }, null)
  }
}
