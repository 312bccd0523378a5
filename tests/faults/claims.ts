// Who has which nest in hand, kept from the events alone by a few lines of our own: the fold under
// test holds one claim a nest by its very shape, and would quietly overwrite a second one.

import type { RoomEvent } from '../../shared/board/events.ts'
import type { Board } from '../../shared/board/state.ts'

type Claim = { readonly claimNo: number; readonly person: string }

export class Claims {
  readonly #byNest = new Map<string, Claim>()
  #lastClaimNo = 0

  /** The events of one record, in order; each flaw is a sentence. */
  take(events: readonly RoomEvent[]): readonly string[] {
    const flaws: string[] = []
    for (const event of events) {
      if (event.type === 'NestClaimed') flaws.push(...this.#claimed(event))
      if (event.type !== 'ClaimEnded') continue
      if (this.#byNest.get(event.nest)?.claimNo !== event.claimNo) {
        flaws.push(`claim ${event.claimNo} of ${event.nest} ended and was not in hand`)
      } else this.#byNest.delete(event.nest)
    }
    const people = [...this.#byNest.values()].map(({ person }) => person)
    if (new Set(people).size < people.length) flaws.push('somebody has two nests in hand')
    return flaws
  }

  /** Nest by nest, the person who has it. */
  holders(): ReadonlyMap<string, string> {
    return new Map([...this.#byNest].map(([nest, { person }]) => [nest, person]))
  }

  /** Whether the board says the same, nest by nest. */
  differsFrom(board: Board): boolean {
    return Object.values(board.nests).some(({ id, hands }) => {
      const mine = this.#byNest.get(id)
      const isHeld = hands.type === 'held'
      return mine?.claimNo !== (isHeld ? hands.claimNo : undefined)
    })
  }

  #claimed(event: Extract<RoomEvent, { type: 'NestClaimed' }>): readonly string[] {
    const { nest, claimNo, person } = event
    const flaws: string[] = []
    const before = this.#byNest.get(nest)
    if (before !== undefined) {
      flaws.push(`${nest} was claimed by ${person} and by ${before.person} at once`)
    }
    if (claimNo <= this.#lastClaimNo) flaws.push(`claim number ${claimNo} was given before`)
    this.#byNest.set(nest, { claimNo, person })
    this.#lastClaimNo = claimNo
    return flaws
  }
}
