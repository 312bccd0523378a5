// How a brood comes onto the board: admitted by a lead with its plan known, or boxed by anyone and left
// to settle. A settling bird is warmed, looked at and given fluids before anybody feeds it, even if it
// begs (HRB2 p. 5, 8, 333, 578); only a signed-off person's word releases it.

import type { BirdId, IncubatorId, InstantMs, NestId } from '../base/values.ts'
import { withBird, withCounter } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { birdsMax, labelMax, massesKept, nestsMax, settlingLookMs } from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Bird, Board, Nest } from '../board/state.ts'
import type { Context } from './context.ts'
import { type Decision, happened, refuse, setAside } from './decision.ts'

const nextNest = (board: Board): NestId => `n${board.counters.nest + 1}` as NestId
const nextBird = (board: Board, after: number): BirdId =>
  `b${board.counters.bird + 1 + after}` as BirdId

const isLabelTaken = (board: Board, label: string): boolean =>
  Object.values(board.nests).some((nest) => nest.label === label)

const isFull = (board: Board, birds: number): 'nests' | 'birds' | null => {
  if (Object.keys(board.nests).length >= nestsMax) return 'nests'
  return Object.keys(board.birds).length + birds > birdsMax ? 'birds' : null
}

export function decideAdmit(
  board: Board,
  command: CommandOf<'AdmitBrood'>,
  context: Context,
): Decision {
  if (isLabelTaken(board, command.label)) return refuse({ code: 'LabelTaken' })
  if (!board.incubators[command.incubator]) {
    return refuse({ code: 'IncubatorUnknown', incubator: command.incubator })
  }
  const unknown = command.birds.find((bird) => !board.plans[bird.plan])
  if (unknown) return refuse({ code: 'PlanUnknown', plan: unknown.plan })
  const bands = command.birds.flatMap((bird) => bird.band ?? [])
  if (new Set(bands).size < bands.length) return refuse({ code: 'BandTaken' })
  const full = isFull(board, command.birds.length)
  if (full) return refuse({ code: 'BoardFull', what: full })
  return happened({
    type: 'NestOpened',
    v: 1,
    nest: nextNest(board),
    label: command.label,
    incubator: command.incubator,
    isQuarantined: command.quarantined,
    birds: command.birds.map((bird, at) => ({ id: nextBird(board, at), ...bird })),
    atMs: context.nowMs,
  })
}

export function decideBox(
  board: Board,
  command: CommandOf<'BoxArrived'>,
  context: Context,
): Decision {
  if (!board.incubators[command.incubator]) {
    return happened(setAside(command, context, 'incubatorUnknown'))
  }
  if (isFull(board, command.howMany)) return happened(setAside(command, context, 'boardFull'))
  return happened({
    type: 'NestOpened',
    v: 1,
    nest: nextNest(board),
    label: freeLabel(board, command.label),
    incubator: command.incubator,
    isQuarantined: false,
    ...(context.private ? { note: context.private } : {}),
    birds: Array.from({ length: command.howMany }, (_, at) => ({
      id: nextBird(board, at),
      band: null,
      species: null,
      size: command.size,
      plan: null,
    })),
    atMs: context.notedAtMs,
    lookDueAtMs: context.notedAtMs + settlingLookMs,
  })
}

/** The label asked for or, since a box that came is never refused, that label with a figure after it. */
function freeLabel(board: Board, label: string): string {
  if (!isLabelTaken(board, label)) return label
  for (let figure = 2; figure <= nestsMax + 1; figure += 1) {
    const other = `${label.slice(0, labelMax - String(figure).length)}${figure}`
    if (!isLabelTaken(board, other)) return other
  }
  throw new Error('more labels taken than the board can hold nests')
}

export function decideRelease(
  board: Board,
  command: CommandOf<'ReleaseArrival'>,
  context: Context,
): Decision {
  if (!board.plans[command.plan]) return refuse({ code: 'PlanUnknown', plan: command.plan })
  const unknown = command.birds.find((bird) => !board.birds[bird])
  if (unknown) return refuse({ code: 'BirdUnknown', bird: unknown })
  const birds = command.birds.filter((bird) => board.birds[bird]?.standing.type === 'settling')
  if (birds.length === 0) return refuse({ code: 'NotSettling' })
  return happened({
    type: 'ArrivalReleased',
    v: 1,
    birds,
    plan: command.plan,
    by: context.by,
    atMs: context.nowMs,
  })
}

export function decideSeen(
  board: Board,
  command: CommandOf<'BirdSeen'>,
  context: Context,
): Decision {
  const bird = board.birds[command.bird]
  if (!bird) return happened(setAside(command, context, 'birdUnknown'))
  return happened({
    type: 'BirdSeen',
    v: 1,
    bird: bird.id,
    by: context.by,
    atMs: context.notedAtMs,
    signs: command.signs,
    droppings: command.droppings,
    ...(context.private ? { note: context.private } : {}),
    ...(bird.standing.type === 'settling'
      ? { lookDueAtMs: context.notedAtMs + settlingLookMs }
      : {}),
  })
}

export function evolveNestOpened(board: Board, event: EventOf<'NestOpened'>): Board {
  const nest: Nest = {
    id: event.nest,
    label: event.label,
    incubator: event.incubator,
    isQuarantined: event.isQuarantined,
    noteId: event.note?.id ?? null,
    openedAtMs: event.atMs,
    hold: null,
    holdEndedAtMs: 0,
    hands: { type: 'free' },
    lastEnd: null,
    doubts: [],
    rounds: [],
    offer: null,
    tried: [],
    isLeadTold: false,
    short: null,
    settledTwice: [],
    fetchedFor: { visitNo: 0, fluidsAtMs: 0 },
  }
  const birds = { ...board.birds }
  for (const born of event.birds) birds[born.id] = newBird(event, born)
  const opened = { ...board, nests: { ...board.nests, [nest.id]: nest }, birds }
  const counted = withCounter(opened, 'nest', numberOf(event.nest))
  return event.birds.reduce((next, bird) => withCounter(next, 'bird', numberOf(bird.id)), counted)
}

function newBird(event: EventOf<'NestOpened'>, born: EventOf<'NestOpened'>['birds'][number]): Bird {
  return {
    id: born.id,
    nest: event.nest,
    band: born.band,
    species: born.species,
    size: born.size ?? null,
    plan: born.plan,
    admittedAtMs: event.atMs,
    standing:
      event.lookDueAtMs === undefined
        ? { type: 'released', atMs: event.atMs }
        : { type: 'settling', lookDueAtMs: event.lookDueAtMs },
    hold: null,
    holdEndedAtMs: 0,
    feeds: [],
    before: { fedAtMs: 0, refusedAtMs: 0, notFedAtMs: 0 },
    seenFullAtMs: 0,
    lookedFullAtMs: 0,
    seenEmptyAtMs: 0,
    arrivalMassMg: null,
    masses: [],
    fluidsAtMs: 0,
    fluidsSinceMs: 0,
    droppingsAtMs: 0,
    fetchedForNo: 0,
    lastSeen: null,
  }
}

/** The figure in an id: 12 of `n12`. */
export const numberOf = (id: NestId | BirdId | IncubatorId | string): number => Number(id.slice(1))

export const evolveReleased = (board: Board, event: EventOf<'ArrivalReleased'>): Board =>
  event.birds.reduce(
    (next, id) =>
      withBird(next, id, (bird) => ({
        ...bird,
        plan: event.plan,
        standing: { type: 'released', atMs: event.atMs },
      })),
    board,
  )

export const evolveSeen = (board: Board, event: EventOf<'BirdSeen'>): Board =>
  withBird(board, event.bird, (bird) => ({
    ...bird,
    lastSeen: latestSeen(bird, event),
    ...(event.droppings === 'seen' ? withDroppings(bird, event.atMs) : {}),
    standing:
      bird.standing.type === 'settling' && event.lookDueAtMs !== undefined
        ? { type: 'settling', lookDueAtMs: Math.max(bird.standing.lookDueAtMs, event.lookDueAtMs) }
        : bird.standing,
  }))

/** Of fluids after these droppings only the last are known; the clock for the next begins there. */
const withDroppings = (bird: Bird, atMs: InstantMs): Partial<Bird> => ({
  droppingsAtMs: Math.max(bird.droppingsAtMs, atMs),
  fluidsSinceMs:
    bird.fluidsSinceMs <= atMs && bird.fluidsAtMs > atMs ? bird.fluidsAtMs : bird.fluidsSinceMs,
})

function latestSeen(bird: Bird, event: EventOf<'BirdSeen'>): Bird['lastSeen'] {
  if (bird.lastSeen && bird.lastSeen.atMs > event.atMs) return bird.lastSeen
  return { signs: event.signs, droppings: event.droppings, atMs: event.atMs }
}

/** A new mass, wherever it falls in time: the first is the arrival's, the latest few are kept. */
export const evolveWeighed = (board: Board, event: EventOf<'Weighed'>): Board =>
  withBird(board, event.bird, (bird) => ({
    ...bird,
    arrivalMassMg: bird.arrivalMassMg ?? event.massMg,
    masses: [...bird.masses, { massMg: event.massMg, atMs: event.atMs }]
      .sort(byTime)
      .slice(-massesKept),
  }))

const byTime = (a: { atMs: InstantMs }, b: { atMs: InstantMs }): number => a.atMs - b.atMs
