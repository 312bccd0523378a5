// Plain reports of a number: a mass, a reading, fluids that were given. Recorded as said; what they
// mean is decided elsewhere. Giving fluids is for people signed off; a record of it is never refused.

import type { InstantMs } from '../base/values.ts'
import { withBird } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { EventOf } from '../board/events.ts'
import type { Bird, Board } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, happened, setAside } from './decision.ts'

export function decideWeighed(
  board: Board,
  command: CommandOf<'Weighed'>,
  context: Context,
): Decision {
  if (!board.birds[command.bird]) return happened(setAside(command, context, 'birdUnknown'))
  return happened({ ...command, by: context.by, atMs: context.notedAtMs })
}

export function decideRead(
  board: Board,
  command: CommandOf<'IncubatorRead'>,
  context: Context,
): Decision {
  if (!board.incubators[command.incubator]) {
    return happened(setAside(command, context, 'incubatorUnknown'))
  }
  return happened({ ...command, atMs: context.notedAtMs })
}

export function decideFluids(
  board: Board,
  command: CommandOf<'FluidsGiven'>,
  context: Context,
): Decision {
  if (!board.birds[command.bird]) return happened(setAside(command, context, 'birdUnknown'))
  const person = board.people[context.by]
  const marks: EventOf<'FluidsGiven'>['marks'] = [
    ...(person?.shift === 'off' ? (['notOnShift'] as const) : []),
    ...(person?.signOffs.includes('fluids') ? [] : (['notSignedOff'] as const)),
    ...(context.isBounded ? (['timeBounded'] as const) : []),
  ]
  return happened({ ...command, by: context.by, atMs: context.notedAtMs, marks })
}

/** Fluids are given every quarter of an hour until droppings pass (HRB2 p. 8), so the first counts. */
export const evolveFluids = (board: Board, event: EventOf<'FluidsGiven'>): Board =>
  withBird(board, event.bird, (bird) => ({
    ...bird,
    fluidsAtMs: Math.max(bird.fluidsAtMs, event.atMs),
    fluidsSinceMs: firstFluidsMs(board, bird, event.atMs),
  }))

function firstFluidsMs(board: Board, bird: Bird, atMs: InstantMs): InstantMs {
  const askedAtMs = board.nests[bird.nest]?.fetchedFor.fluidsAtMs ?? 0
  const doneAtMs = Math.max(bird.droppingsAtMs, askedAtMs)
  if (atMs <= doneAtMs) return bird.fluidsSinceMs
  return bird.fluidsSinceMs > doneAtMs ? Math.min(bird.fluidsSinceMs, atMs) : atMs
}

export function evolveRead(board: Board, event: EventOf<'IncubatorRead'>): Board {
  const incubator = board.incubators[event.incubator]
  if (!incubator || (incubator.reading && incubator.reading.atMs > event.atMs)) return board
  const reading = {
    tempDeciC: event.tempDeciC,
    humidityPercent: event.humidityPercent ?? null,
    atMs: event.atMs,
  }
  const incubators = { ...board.incubators, [incubator.id]: { ...incubator, reading } }
  return { ...board, incubators }
}
