// Planted mistakes in the rules, as they could stand in the rules themselves: each takes the real ones
// and changes what comes out of them.

import type { RoomBrain } from '../../server/room/realBrain.ts'
import { no, ok } from '../../shared/base/control.ts'
import { hourMs } from '../../shared/base/values.ts'
import { withNest } from '../../shared/board/change.ts'
import type { RoomEvent } from '../../shared/board/events.ts'

/** The rules with the events of every decision changed. */
function decidingOtherwise(
  brain: RoomBrain,
  change: (
    events: readonly RoomEvent[],
    turn: { readonly of: Parameters<RoomBrain['decide']>[1]; readonly agoMs: number },
  ) => readonly RoomEvent[],
): RoomBrain {
  return {
    ...brain,
    decide: (board, command, context) => {
      const decided = brain.decide(board, command, context)
      if (!decided.ok) return decided
      return ok(change(decided.value, { of: command, agoMs: context.agoMs }))
    },
  }
}

/** A claim noted a while ago, by the device's clock, runs from then. */
export const leasingByDevice = (brain: RoomBrain): RoomBrain =>
  decidingOtherwise(brain, (events, { agoMs }) =>
    events.map((event) =>
      event.type === 'NestClaimed'
        ? { ...event, leaseEndsAtMs: event.leaseEndsAtMs - agoMs }
        : event,
    ),
  )

/** A device whose clock was set tells of a start that cannot be, and is believed. */
export const startingLongAgo = (brain: RoomBrain): RoomBrain =>
  decidingOtherwise(brain, (events) =>
    events.map((event) =>
      event.type === 'RoundRecorded' && event.standing === 'unclaimed' && !event.isSaid
        ? { ...event, startedAtMs: event.startedAtMs - 2 * hourMs }
        : event,
    ),
  )

export const withoutStrikes = (brain: RoomBrain): RoomBrain =>
  decidingOtherwise(brain, (events, { of }) =>
    of.type === 'AnswerBirds'
      ? events.filter(({ type }) => type !== 'ClaimBirdsStruck' && type !== 'StopCalled')
      : events,
  )

export const holdingForEver = (brain: RoomBrain): RoomBrain =>
  decidingOtherwise(brain, (events) =>
    events.map((event) =>
      event.type === 'HoldSet'
        ? { ...event, hold: { ...event.hold, lookAgainAtMs: event.hold.setAtMs } }
        : event,
    ),
  )

/** Whoever comes second is asked for as if the nest were free. */
export function grantingTaken(brain: RoomBrain): RoomBrain {
  return {
    ...brain,
    decide: (board, command, context) => {
      const decided = brain.decide(board, command, context)
      if (decided.ok || decided.error.code !== 'NestTaken' || !('nest' in command) || !command.nest)
        return decided
      const freed = withNest(board, command.nest, (nest) => ({ ...nest, hands: { type: 'free' } }))
      return brain.decide(freed, command, context)
    },
  }
}

/** As if a report were an ask: what does not fit any more is turned down. */
export function rejectingLate(brain: RoomBrain): RoomBrain {
  return {
    ...brain,
    decide: (board, command, context) => {
      const decided = brain.decide(board, command, context)
      if (!decided.ok) return decided
      const isLate = decided.value.some(
        (event) => event.type === 'RoundRecorded' && event.standing === 'late',
      )
      return isLate ? no({ code: 'NotYours' }) : decided
    },
  }
}

export const withoutLapses = (brain: RoomBrain): RoomBrain => ({
  ...brain,
  decideTime: (board, nowMs) =>
    brain
      .decideTime(board, nowMs)
      .filter((event) => !(event.type === 'ClaimEnded' && event.how === 'lapsed')),
})

export const withoutDoubts = (brain: RoomBrain): RoomBrain => ({
  ...brain,
  decideTime: (board, nowMs) =>
    brain.decideTime(board, nowMs).filter(({ type }) => type !== 'DoubtRaised'),
})
