// Do not feed: a hold on a nest or one bird, always with a reason and a time to look again. It never
// lifts by itself; when its look-again has passed somebody is asked, and still it holds.

import { clamp, type InstantMs } from '../base/values.ts'
import { withBird, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { lookAgainMaxMs, lookAgainOverdueMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Hold } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Board } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, happened, heldBy, refuse, setAside } from './decision.ts'
import { endIfNothingLeft } from './rounds.ts'

/** What a hold asks for now: nothing yet, a look, or a look that is overdue. */
export function lookAgainStanding(hold: Hold, nowMs: InstantMs): 'quiet' | 'due' | 'overdue' {
  if (nowMs < hold.lookAgainAtMs) return 'quiet'
  return nowMs < hold.lookAgainAtMs + lookAgainOverdueMs ? 'due' : 'overdue'
}

export function decideHoldNest(
  board: Board,
  command: CommandOf<'SetHold'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  const { lookAgainAtMs, reason } = command
  if (lookAgainAtMs <= context.nowMs || lookAgainAtMs > context.nowMs + lookAgainMaxMs) {
    return refuse({ code: 'LookAgainTooFar' })
  }
  const hold = { reason, by: context.by, setAtMs: context.nowMs, lookAgainAtMs }
  const held = heldBy(nest)
  return happened(
    { type: 'HoldSet', v: 1, nest: nest.id, hold },
    ...(held
      ? [
          {
            type: 'StopCalled' as const,
            v: 1 as const,
            nest: nest.id,
            claimNo: held.claimNo,
            why: 'held' as const,
          },
        ]
      : []),
  )
}

export function decideHoldBird(
  board: Board,
  command: CommandOf<'HoldBird'>,
  context: Context,
): Decision {
  const bird = board.birds[command.bird]
  const nest = bird && board.nests[bird.nest]
  if (!bird || !nest) return happened(setAside(command, context, 'birdUnknown'))
  const hold = {
    reason: command.reason,
    by: context.by,
    setAtMs: context.notedAtMs,
    // A report is never refused, so a time out of reach is moved to the nearest that is in it.
    lookAgainAtMs: clamp(command.lookAgainAtMs, context.nowMs, context.nowMs + lookAgainMaxMs),
  }
  const held = heldBy(nest)
  const isInHand = held?.birds.includes(bird.id) && !held.answered.includes(bird.id)
  return happened(
    { type: 'HoldSet', v: 1, nest: nest.id, bird: bird.id, hold },
    ...(held && isInHand
      ? [
          {
            type: 'ClaimBirdsStruck' as const,
            v: 1 as const,
            nest: nest.id,
            claimNo: held.claimNo,
            birds: [bird.id],
          },
          ...endIfNothingLeft(nest, [bird.id], context.nowMs),
        ]
      : []),
  )
}

export function decideLiftHold(
  board: Board,
  command: CommandOf<'LiftHold'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  const bird = command.bird === undefined ? null : (board.birds[command.bird] ?? null)
  if (command.bird !== undefined && bird?.nest !== nest.id) {
    return refuse({ code: 'BirdUnknown', bird: command.bird })
  }
  const hold = bird ? bird.hold : nest.hold
  if (!hold) return refuse({ code: 'NotHeld' })
  const needs = board.people[hold.by]?.role === 'permitHolder' ? 'permitHolder' : 'lead'
  const person = board.people[context.by]
  const mayLift = hold.by === context.by || (person !== undefined && hasRight(person, needs))
  if (!mayLift) return refuse({ code: 'NotAllowed', needs })
  return happened({
    type: 'HoldLifted',
    v: 1,
    nest: nest.id,
    ...(bird ? { bird: bird.id } : {}),
    by: context.by,
    atMs: context.nowMs,
    why: command.whyLifted,
  })
}

export function evolveHoldSet(board: Board, event: EventOf<'HoldSet'>): Board {
  return event.bird
    ? withBird(board, event.bird, (bird) => ({ ...bird, hold: event.hold }))
    : withNest(board, event.nest, (nest) => ({ ...nest, hold: event.hold }))
}

export function evolveHoldLifted(board: Board, event: EventOf<'HoldLifted'>): Board {
  const lifted = { hold: null, holdEndedAtMs: event.atMs }
  return event.bird
    ? withBird(board, event.bird, (bird) => ({ ...bird, ...lifted }))
    : withNest(board, event.nest, (nest) => ({ ...nest, ...lifted }))
}
