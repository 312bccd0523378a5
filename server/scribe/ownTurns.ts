// Turns that nobody asked for: what the server itself has to write (a founding, a start), and civil
// time moved because the machine's clock was set. Like any turn they make a new working side or throw
// with nothing staged.

import { secondMs } from '../../shared/base/values.ts'
import type { RoomEvent } from '../../shared/board/events.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import type { Brain, ClockPort, PrivateText } from './ports.ts'
import { type TurnWorld, turnTime } from './turn.ts'
import type { ServerMoment, ServerTurn } from './waiting.ts'
import { byNobody, type Working, withRecord } from './working.ts'

/** The machine's clock is always a little off; civil time follows it only beyond this. */
export const civilJumpMs = 2 * secondMs

export type OwnWorld = TurnWorld & { readonly clock: ClockPort }

/**
 * One record with the server as its cause, decided before any time rule has had its say; none where
 * the turn finds nothing to say.
 */
export function serverTurn(world: OwnWorld, before: Working, turn: ServerTurn): Working {
  const { brain, privateFile, epoch } = world
  const atMs = turnTime(world, before)
  const names: PrivateRef[] = []
  try {
    const keep = (text: PrivateText) => {
      const ref = privateFile.stage(text)
      names.push(ref)
      return ref
    }
    const civilOffsetMs = world.clock.civilOffsetMs()
    const events = turn({ board: before.board, nowMs: atMs, civilOffsetMs, keep })
    if (events.length === 0 && names.length === 0) return before
    const cause = { type: 'server' } as const
    return withRecord(brain, before, { atMs, epoch, cause, ...byNobody, events, names })
  } catch (error) {
    for (const ref of names) privateFile.unstage(ref)
    throw error
  }
}

/** Civil time moved to where the machine's clock says it is; nothing while it is near enough. */
export function civilTimeEvents(
  brain: Pick<Brain, 'civilOffsetEvents'>,
  { board, nowMs, civilOffsetMs }: Omit<ServerMoment, 'keep'>,
): readonly RoomEvent[] {
  const isNear = Math.abs(civilOffsetMs - board.room.civilOffsetMs) <= civilJumpMs
  return isNear ? [] : brain.civilOffsetEvents(board, civilOffsetMs, nowMs)
}

/** A record that moves civil time, if the machine's clock was set since the last one. */
export function wallClockTurn(world: OwnWorld, before: Working): Working {
  const atMs = turnTime(world, before)
  const moment = { nowMs: atMs, civilOffsetMs: world.clock.civilOffsetMs() }
  const events = civilTimeEvents(world.brain, { board: before.board, ...moment })
  if (events.length === 0) return before
  const cause = { type: 'server' } as const
  return withRecord(world.brain, before, { atMs, epoch: world.epoch, cause, ...byNobody, events })
}
