// What a screen draws beside the confirmed board: everything this device has noted that the board does
// not show yet, with how far each has come. Pure.

import type { InstantMs, LengthMs, PersonId } from '../../shared/base/values.ts'
import type { Command } from '../../shared/board/commands.ts'
import type { Held, HeldNote } from './outbox.ts'
import type { Timers } from './ports.ts'
import { notedAgo } from './timing.ts'

/**
 * `waiting`: on this device alone. `sent`: no answer yet. `withdrawn`: an ask nobody waits for any more,
 * of which it is not yet known whether it got through. `answered`: applied, the board is about to show it.
 */
export type PendingState = 'waiting' | 'sent' | 'withdrawn' | 'answered'

export type PendingEntry = {
  readonly n: number
  readonly kind: 'ask' | 'report'
  readonly by: PersonId
  readonly body: Command
  readonly state: PendingState
  /** How old it is by this device's clock; real milliseconds. */
  readonly agoMs: LengthMs
  /** When it was noted, by the room's clock as far as is known. */
  readonly notedAtMs: InstantMs | null
}

export type PendingView = {
  readonly waiting: readonly Held[]
  /** Applied, at versions that the board has not reached. */
  readonly unfolded: readonly HeldNote[]
  readonly timers: Timers
  stateOf(entry: Held['entry']): PendingState
  roomAgoMs(agoMs: LengthMs): InstantMs | null
}

/** In the order of their numbers, each number once. */
export function pendingOf(view: PendingView): readonly PendingEntry[] {
  const drawn = new Map<number, PendingEntry>()
  for (const note of view.unfolded) drawn.set(note.entry.n, draw(view, note, 'answered'))
  for (const held of view.waiting) {
    drawn.set(held.entry.n, draw(view, held, view.stateOf(held.entry)))
  }
  return [...drawn.values()].sort((a, b) => a.n - b.n)
}

function draw(view: PendingView, { entry, origin }: HeldNote, state: PendingState): PendingEntry {
  const { n, kind, by, body } = entry
  const agoMs = notedAgo(entry, origin, view.timers)
  return { n, kind, by, body, state, agoMs, notedAtMs: view.roomAgoMs(agoMs) }
}
