// The answers to a doubt. Its owner says what happened; whoever comes next looks at the crop. Only what
// somebody says becomes a round, and a crop seen full delays the next feed without counting as one.

import type { BirdId, InstantMs } from '../base/values.ts'
import { byNestNow, withBird, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Doubt, Nest } from '../board/state.ts'
import { claimEnded } from './claiming.ts'
import type { Context } from './context.ts'
import {
  type Decision,
  doubtOf,
  type Events,
  happened,
  heldBy,
  nothingNew,
  setAside,
} from './decision.ts'
import { asideWithDoubt, doubtEnded } from './doubts.ts'
import { unsureFeed } from './due.ts'
import { lateRound, recorded } from './rounds.ts'

export function decideSayWhatHappened(
  board: Board,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const isOfHere = doubtOf(nest, command.claimNo) || nest.lastEnd?.claimNo === command.claimNo
  // A bird that was moved took the doubt of its visit along, under the same number.
  const settled = Object.values(board.nests).flatMap((at) => {
    const doubt = isOfHere ? doubtOf(at, command.claimNo) : null
    return doubt ? settle(board, at, doubt, command, context) : []
  })
  if (settled.length > 0) return happened(...settled)
  const held = heldBy(nest)
  const isMine = held?.claimNo === command.claimNo && held.person === context.by
  if (isMine) return closeClaim(board, nest, command, context)
  const isKnown = nest.rounds.some((round) => round.no === command.claimNo)
  if (isKnown || command.said.type === 'none') return nothingNew
  return happened(...asideWithDoubt(board, command, context, { why: 'roundUnknown' }))
}

function saidBirds(
  among: readonly BirdId[],
  said: CommandOf<'SayWhatHappened'>['said'],
): readonly BirdId[] {
  if (said.type === 'all') return among
  if (said.type === 'none') return []
  return among.filter((bird) => said.birds.includes(bird))
}

function settle(
  board: Board,
  nest: Nest,
  doubt: Doubt,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Events {
  const fed = saidBirds(doubt.birds, command.said)
  return [
    ...(fed.length > 0
      ? lateRound(board, nest, context, {
          no: doubt.no,
          standing: 'late',
          startedAtMs: doubt.aboutAtMs,
          isSaid: true,
          answers: fed.map((bird) => ({ bird, outcome: 'ate' as const })),
        })
      : []),
    doubtEnded(nest.id, doubt.no, 'said', command.said.type),
  ]
}

function closeClaim(
  board: Board,
  nest: Nest,
  command: CommandOf<'SayWhatHappened'>,
  context: Context,
): Decision {
  const held = heldBy(nest)
  if (!held) return nothingNew
  const open = held.birds.filter((bird) => !held.answered.includes(bird))
  const fed = saidBirds(open, command.said)
  const how =
    fed.length === open.length ? 'fed' : fed.length + held.answered.length > 0 ? 'partly' : 'notFed'
  return happened(
    ...(fed.length > 0
      ? [
          recorded(board, nest, context, {
            no: held.claimNo,
            standing: 'current',
            startedAtMs: held.startedAtMs,
            isSaid: true,
            answers: fed.map((bird) => ({ bird, outcome: 'ate' as const })),
          }),
        ]
      : []),
    claimEnded(nest.id, held.claimNo, how, context.nowMs),
  )
}

export function decideLooked(
  board: Board,
  command: CommandOf<'Looked'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const groups = byNestNow(
    board,
    command.looks.map((look) => look.bird),
  )
  if (groups.length === 0)
    return happened(...asideWithDoubt(board, command, context, { why: 'birdUnknown' }))
  return happened(
    ...groups.flatMap((group) =>
      lookedAt(
        board,
        group.nest,
        command.looks.filter((look) => group.birds.includes(look.bird)),
        context,
      ),
    ),
  )
}

/** What was seen in one nest, and the doubts of two records that this settles there. */
function lookedAt(
  board: Board,
  nest: Nest,
  looks: CommandOf<'Looked'>['looks'],
  context: Context,
): Events {
  const looked: EventOf<'BirdsLooked'> = {
    type: 'BirdsLooked',
    v: 1,
    nest: nest.id,
    by: context.by,
    atMs: context.notedAtMs,
    looks: looks.map((look) => {
      if (look.crop === 'empty') return { ...look, emptyFromMs: visitStartMs(nest, context) }
      if (look.crop === 'cannotTell') return look
      return { ...look, fullSinceMs: fullSinceMs(board, nest, look.bird) ?? context.notedAtMs }
    }),
  }
  return [looked, ...twiceLooked(nest, looks)]
}

/** Two records too close together are settled as soon as every bird of them has been looked at. */
const twiceLooked = (nest: Nest, looks: readonly { readonly bird: BirdId }[]): Events =>
  nest.doubts
    .filter((doubt) => doubt.kind === 'twice')
    .filter((doubt) => {
      const seen = [...doubt.looked, ...looks.map((look) => look.bird)]
      return doubt.birds.every((bird) => seen.includes(bird))
    })
    .map((doubt) => doubtEnded(nest.id, doubt.no, 'looked'))

/** What a full crop stands for: the latest doubtful feed, or the one after which somebody went hungry. */
const fullSinceMs = (board: Board, nest: Nest, id: BirdId): InstantMs | null => {
  const bird = board.birds[id]
  return latestDoubtMs(nest, id) ?? (bird ? (unsureFeed(bird)?.startedAtMs ?? null) : null)
}

/**
 * A look is part of the visit it is made in: the feed that follows counts from the visit's start, and
 * must not come before the empty crop it answers.
 */
function visitStartMs(nest: Nest, context: Context): InstantMs {
  const held = heldBy(nest)
  const isInVisit = held?.person === context.by
  return isInVisit ? Math.min(context.notedAtMs, held.startedAtMs) : context.notedAtMs
}

/** The latest time at which this bird may have been fed; null where nobody doubts it. */
function latestDoubtMs(nest: Nest, bird: BirdId): InstantMs | null {
  const times = nest.doubts
    .filter((doubt) => doubt.birds.includes(bird))
    .map((doubt) => doubt.aboutAtMs)
  return times.length > 0 ? Math.max(...times) : null
}

export function evolveLooked(board: Board, event: EventOf<'BirdsLooked'>): Board {
  const seen = event.looks.map((look) => look.bird)
  const warned = withNest(board, event.nest, (nest) => ({
    ...nest,
    doubts: nest.doubts.map((doubt) => ({
      ...doubt,
      looked: [...new Set([...doubt.looked, ...doubt.birds.filter((bird) => seen.includes(bird))])],
    })),
  }))
  return event.looks.reduce(
    (changed, look) =>
      withBird(changed, look.bird, (bird) => {
        if (look.crop === 'empty') {
          const emptyFrom = look.emptyFromMs ?? event.atMs
          return { ...bird, seenEmptyAtMs: Math.max(bird.seenEmptyAtMs, emptyFrom) }
        }
        if (look.crop === 'cannotTell') return bird
        return {
          ...bird,
          seenFullAtMs: Math.max(bird.seenFullAtMs, look.fullSinceMs ?? event.atMs),
          lookedFullAtMs: Math.max(bird.lookedFullAtMs, event.atMs),
        }
      }),
    warned,
  )
}
