// A demo room from its founding to the moment somebody first looks: the scripted orders and the rounds,
// in order of time. What is due, late, in hand and settling at the end is the outcome of it and is
// written nowhere.

import type { Board } from '../shared/board/state.ts'
import type { DemoRoom, Step } from './demoRoom.ts'
import { minutes } from './ids.ts'
import { type Founded, Rehearsal } from './rehearsal.ts'
import { lookForNest, type Turn } from './rounds.ts'
import { scriptedSteps } from './steps.ts'

export type Played = { readonly steps: readonly Step[]; readonly board: Board }

/** The same room, instant and zone make the same orders and the same board, every time. */
export function played(room: DemoRoom, founded: Founded): Played {
  const rehearsal = new Rehearsal(room, founded)
  const endMs = minutes(room.playedMin)
  const agenda: Turn[] = [
    ...scriptedSteps(room, founded.foundedAtMs).map((step) => scripted(rehearsal, step)),
    ...room.workers.map((worker) => lookForNest(rehearsal, worker, minutes(worker.fromMin))),
  ]
  for (let turn = earliest(agenda); turn && turn.afterMs <= endMs; turn = earliest(agenda)) {
    agenda.splice(agenda.indexOf(turn), 1)
    agenda.push(...turn.act())
  }
  return { steps: rehearsal.steps, board: rehearsal.boardAt(endMs) }
}

function scripted(rehearsal: Rehearsal, step: Step): Turn {
  const act = () => {
    rehearsal.take(step)
    return []
  }
  return { afterMs: step.afterMs, act }
}

/** Of two at one moment the one that was put on the agenda first. */
const earliest = (agenda: readonly Turn[]): Turn | undefined =>
  agenda.reduce<Turn | undefined>(
    (first, turn) => (first === undefined || turn.afterMs < first.afterMs ? turn : first),
    undefined,
  )
