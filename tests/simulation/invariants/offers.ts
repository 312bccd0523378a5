// Who is asked for a late nest, and how often the lead is told. Written from the page on offers, not
// from the rules: what makes a person free is worked out here a second time.

import { secondMs } from '../../../shared/base/values.ts'
import { birdsOf } from '../../../shared/board/change.ts'
import type { EventOf } from '../../../shared/board/events.ts'
import type { Board, Nest } from '../../../shared/board/state.ts'
import type { Happened } from '../reference.ts'
import { heldOn, type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import type { Seen } from '../witness.ts'

const ownerOnlyMs = 60 * secondMs
const standsMs = 45 * secondMs
/** What a turn and a flush may take, and a time rule be seen after its instant. */
const seenWithinMs = 5 * secondMs

function whyNotAsk(board: Board, person: string): string | null {
  const actor = Object.values(board.people).find(({ id }) => id === person)
  if (actor?.shift !== 'on' || actor.isRemoved) return 'is not on shift'
  if (actor.unreachableSinceMs !== null) return 'cannot be reached'
  if (heldOn(board).some(({ held }) => held.person === person)) return 'has a nest in hand'
  const isCalled = Object.values(board.requests).some((one) => one.taken?.person === person)
  if (isCalled) return 'is busy with a call'
  const others = Object.values(board.nests).filter((nest) => nest.offer?.person === person)
  return others.length > 0 ? 'is asked for another nest' : null
}

function whyNotNest(board: Board, nest: Nest, nowMs: number): string | null {
  if (nest.hands.type === 'held') return 'is in hand'
  if (nest.hold !== null) return 'is on hold'
  const brood = birdsOf(board, nest.id)
  if (brood.every(({ standing }) => standing.type === 'settling')) return 'is settling'
  const isAsked = nest.doubts.some(
    ({ kind, owner, raisedAtMs }) =>
      kind !== 'twice' &&
      owner !== null &&
      nowMs < Math.max(raisedAtMs, board.room.openedAtMs) + ownerOnlyMs,
  )
  return isAsked ? 'is asked about' : null
}

export class OffersFit implements Invariant {
  readonly number = 'round'
  readonly name = 'only a nest that waits is offered, and only to a person who is free'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap((one) =>
      one.record.events.flatMap((event) =>
        event.type === 'OfferMade' ? this.#flaws(one, event) : [],
      ),
    )
  }

  #flaws({ record, before }: Happened, { nest: id, person, by }: EventOf<'OfferMade'>): Sentences {
    // The same record may first have let the nest, or the person, off another offer.
    const isLetOff = record.events.some(({ type }) => type === 'OfferEnded')
    const nest = before.nests[id]
    if (nest === undefined) return [`offers a nest ${id} that is not there`]
    const ofNest = whyNotNest(before, nest, record.atMs)
    const ofPerson = isLetOff ? null : whyNotAsk(before, person)
    const isAgain = by === null && nest.tried.includes(person)
    return [
      ...(ofNest === null ? [] : [`${id} is offered and ${ofNest}`]),
      ...(ofPerson === null ? [] : [`${person} is asked and ${ofPerson}`]),
      ...(isAgain ? [`${person} is asked twice for the same lateness of ${id}`] : []),
    ]
  }
}

export class OffersEnd implements Invariant {
  readonly number = 'round'
  readonly name =
    'an offer stands 45 seconds at most, and not for a nest or a person it does not fit'

  step(_scene: Scene, { happened }: Seen): Sentences {
    const last = happened.at(-1)
    if (last === undefined) return nothingWrong
    const { after, record } = last
    return Object.values(after.nests).flatMap((nest) => {
      const { offer } = nest
      if (offer === null) return []
      const sinceMs = record.atMs - Math.max(offer.madeAtMs, after.room.openedAtMs)
      const isTooLong = sinceMs > standsMs + seenWithinMs
      return isTooLong ? [`${nest.id} is still offered to ${offer.person} after ${sinceMs} ms`] : []
    })
  }
}

const ofLateness = ['nobodySignedOff', 'threeAsked', 'lateTen']

export class LeadsAreToldOnce implements Invariant {
  readonly number = 'round'
  readonly name = 'of one lateness the lead is told once'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before }) =>
      record.events.flatMap((event) =>
        event.type === 'LeadTold' &&
        ofLateness.includes(event.why) &&
        event.nest !== undefined &&
        before.nests[event.nest]?.isLeadTold
          ? [`the lead is told of ${event.nest} again`]
          : [],
      ),
    )
  }
}

export class TraineesHaveTheirMentor implements Invariant {
  readonly number = 17
  readonly name = 'a trainee claims nothing while nobody answers for them'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'NestClaimed') return []
        const person = before.people[event.person]
        if (person?.role !== 'trainee') return []
        // Undoing a record of theirs puts the nest back where it was.
        if (record.events.some(({ type }) => type === 'RoundTakenBack')) return []
        const mentor = person.mentor === null ? undefined : before.people[person.mentor]
        return mentor?.shift === 'on' ? [] : [`${person.id} claims with no mentor on shift`]
      }),
    )
  }
}
