// Turns that nobody asked for: what the server itself has to write (a founding, a start), and civil
// time moved because the machine's clock was set. Like any turn they make a new working side or throw
// with nothing staged.

import { secondMs } from '../../shared/base/values.ts'
import type { PrivateRef } from '../../shared/board/parts.ts'
import type { ClockPort } from './ports.ts'
import { type TurnWorld, turnTime } from './turn.ts'
import type { ServerTurn } from './waiting.ts'
import { byNobody, type Working, withRecord } from './working.ts'

/** The machine's clock is always a little off; civil time follows it only beyond this. */
export const civilJumpMs = 2 * secondMs

/** One record with the server as its cause, decided before any time rule has had its say. */
export function serverTurn(world: TurnWorld, before: Working, turn: ServerTurn): Working {
  const { brain, privateFile, epoch } = world
  const atMs = turnTime(world, before)
  const names: PrivateRef[] = []
  try {
    const events = turn(before.board, atMs, (text) => {
      const ref = privateFile.stage(text)
      names.push(ref)
      return ref
    })
    const cause = { type: 'server' } as const
    return withRecord(brain, before, { atMs, epoch, cause, ...byNobody, events, names })
  } catch (error) {
    for (const ref of names) privateFile.unstage(ref)
    throw error
  }
}

export type WallWorld = TurnWorld & { readonly clock: ClockPort }

/** Civil time follows the machine's clock. A room run at another speed has a civil time of its own. */
export function wallClockTurn(world: WallWorld, before: Working): Working {
  const { brain, clock, epoch, speed } = world
  const offsetMs = clock.civilOffsetMs()
  const isNear = Math.abs(offsetMs - before.board.room.civilOffsetMs) <= civilJumpMs
  if (speed !== 1 || isNear) return before
  const atMs = turnTime(world, before)
  const events = brain.civilOffsetEvents(before.board, offsetMs, atMs)
  if (events.length === 0) return before
  return withRecord(brain, before, { atMs, epoch, cause: { type: 'server' }, ...byNobody, events })
}
