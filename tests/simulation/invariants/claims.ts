// Who has which nest: never two, never lost without a word, never beyond its time. The lengths of
// leases are written here a second time on purpose, from the page on claims and not from the rules.

import { minuteMs, secondMs } from '../../../shared/base/values.ts'
import type { RoomEvent } from '../../../shared/board/events.ts'
import type { Board, Held } from '../../../shared/board/state.ts'
import { Claims } from '../../faults/claims.ts'
import type { Happened } from '../reference.ts'
import { heldOn, type Invariant, nothingWrong, type Scene, type Sentences } from '../scene.ts'
import type { Seen } from '../witness.ts'

/** No claim ends before the server has been live again for so long. */
const graceMs = minuteMs
/** It is seen at most this much later. */
const seenWithinMs = 5 * secondMs
/** What a flush may take when nothing is wrong with the disk. */
const flushMs = 100

export class OneClaimANest implements Invariant {
  readonly number = 1
  readonly name = 'at most one live claim a nest, and one a person'
  readonly #claims = new Claims()

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, after }) => {
      const flaws = this.#claims.take(record.events)
      return this.#claims.differsFrom(after) ? [...flaws, 'the board tells of other claims'] : flaws
    })
  }
}

export class NoClaimMovesSilently implements Invariant {
  readonly number = 1
  readonly name = 'what one person reports never takes the claim of another without a word'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap((one) =>
      heldOn(one.before).flatMap(({ nest, held }) =>
        this.#isTakenSilently(one, nest.id, held)
          ? [`claim ${held.claimNo} of ${held.person} was changed by ${one.record.by}`]
          : [],
      ),
    )
  }

  #isTakenSilently({ record, after }: Happened, nest: string, held: Held): boolean {
    if (record.by === null || record.by === held.person) return false
    const now = Object.values(after.nests).find(({ id }) => id === nest)?.hands
    const isSame =
      now?.type === 'held' && now.claimNo === held.claimNo && now.birds.length === held.birds.length
    return !isSame && !record.events.some((event) => saysSo(event, held))
  }
}

/** A hold on one bird strikes that bird, and the hold itself stands where its holder looks. */
const saysSo = (event: RoomEvent, { claimNo, person, birds }: Held): boolean =>
  (event.type === 'StopCalled' && event.claimNo === claimNo) ||
  (event.type === 'HoldSet' && event.bird !== undefined && birds.includes(event.bird)) ||
  (event.type === 'PersonRemoved' && event.person === person)

const isFed = (outcome: string): boolean => ['ate', 'some', 'assisted'].includes(outcome)

export class LateRoundsStrike implements Invariant {
  readonly number = 'round'
  readonly name = 'a late record takes the birds it fed out of the hands of whoever has them now'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'RoundRecorded' || event.standing === 'current') return []
        // Taken back and said to have been a feed all the same: nothing its claimant did not know.
        if (record.events.some(({ type }) => type === 'RoundTakenBack')) return []
        const hands = before.nests[event.nest]?.hands
        if (hands?.type !== 'held') return []
        const isSoon = (intervalMs: number) => record.atMs - event.startedAtMs < 0.75 * intervalMs
        const fed = event.answers.filter(
          ({ outcome, intervalMs }) => isFed(outcome) && isSoon(intervalMs),
        )
        const open = hands.birds.filter((bird) => !hands.answered.includes(bird))
        const mustGo = fed.map(({ bird }) => bird).filter((bird) => open.includes(bird))
        const struck = record.events.flatMap((other) =>
          other.type === 'ClaimBirdsStruck' && other.claimNo === hands.claimNo ? other.birds : [],
        )
        const left = mustGo.filter((bird) => !struck.includes(bird))
        return left.length === 0
          ? []
          : [`${left} stay in claim ${hands.claimNo}, just fed by another`]
      }),
    )
  }
}

export class ClaimsEndInTime implements Invariant {
  readonly number = 9
  readonly name = 'a claim ends at the later of its lease and a minute of a live server, and soon'
  readonly isTimed = true
  /** For how long, since the earliest claim is over, the server could not have written. */
  #hinderedMs = 0
  #lookedAtMs = 0
  #wasWaiting = false
  /** The board last looked at, and when the first of its claims is over. */
  #board: Board | null = null
  #earliestMs = Number.POSITIVE_INFINITY

  step(scene: Scene, { happened }: Seen): Sentences {
    return [...happened.flatMap((one) => this.#endedEarly(one)), ...this.#standsTooLong(scene)]
  }

  #endedEarly({ record, before }: Happened): Sentences {
    return record.events.flatMap((event) => {
      if (event.type !== 'ClaimEnded' || event.how !== 'lapsed') return []
      if (record.events.some(({ type }) => type === 'PersonRemoved')) return []
      const hands = before.nests[event.nest]?.hands
      if (hands?.type !== 'held') return [`claim ${event.claimNo} lapsed and was not in hand`]
      const overAtMs = overAt(hands, before.room.openedAtMs)
      return record.atMs < overAtMs
        ? [`claim ${event.claimNo} lapsed ${overAtMs - record.atMs} ms before its time`]
        : []
    })
  }

  #standsTooLong({ server }: Scene): Sentences {
    const { room } = server
    if (room === null) return nothingWrong
    const nowMs = room.nowMs()
    this.#lookAt(room.durable.board)
    const { isWaitingForDisk } = server
    if (nowMs <= this.#earliestMs) this.#hinderedMs = 0
    else if (isWaitingForDisk || this.#wasWaiting) this.#hinderedMs += nowMs - this.#lookedAtMs
    this.#lookedAtMs = nowMs
    this.#wasWaiting = isWaitingForDisk
    const mustBeGoneMs = this.#earliestMs + this.#hinderedMs + seenWithinMs + flushMs
    return nowMs > mustBeGoneMs ? [`a claim stands ${nowMs - this.#earliestMs} ms too long`] : []
  }

  #lookAt(board: Board): void {
    if (board === this.#board) return
    this.#board = board
    const { openedAtMs } = board.room
    const earliestMs = Math.min(...heldOn(board).map(({ held }) => overAt(held, openedAtMs)))
    if (earliestMs !== this.#earliestMs) this.#hinderedMs = 0
    this.#earliestMs = earliestMs
  }
}

const overAt = ({ leaseEndsAtMs }: Held, openedAtMs: number): number =>
  Math.max(leaseEndsAtMs, openedAtMs + graceMs)

export class StartedVisitsEnd implements Invariant {
  readonly number = 'round'
  readonly name = 'a visit ends fed, partly, not fed, or lapsed with a doubt over what is open'

  step(_scene: Scene, { happened }: Seen): Sentences {
    return happened.flatMap(({ record, before, after }) =>
      record.events.flatMap((event) => {
        if (event.type !== 'ClaimEnded') return []
        const hands = before.nests[event.nest]?.hands
        if (hands?.type !== 'held' || hands.claimNo !== event.claimNo) return []
        const open = hands.birds.filter((bird) => !hands.answered.includes(bird))
        const doubted = record.events.some(
          (other) => other.type === 'DoubtRaised' && other.no === event.claimNo,
        )
        if (event.how === 'lapsed' && open.length > 0 && !doubted) {
          return [`claim ${event.claimNo} lapsed over ${open} and nobody is asked`]
        }
        const isFree = after.nests[event.nest]?.hands.type === 'free'
        const isAnew = record.events.some(
          (other) => other.type === 'NestClaimed' && other.nest === event.nest,
        )
        return isFree || isAnew ? [] : [`claim ${event.claimNo} ended and is still in hand`]
      }),
    )
  }
}
