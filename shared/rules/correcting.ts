// Mending a record that is not true: other outcomes or amounts on the same nest, or the whole record put
// onto the nest that was really fed. The first record stays in the journal; hands never move.

import type { NestId, PersonId } from '../base/values.ts'
import { birdsOf, withNest } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { EventOf, RoomEvent } from '../board/events.ts'
import type { Answer, NotKnownWhich } from '../board/parts.ts'
import type { Bird, Board, Feed, Nest, Round } from '../board/state.ts'
import type { Context } from './context.ts'
import {
  type Decision,
  type Events,
  happened,
  nextVisit,
  nothingNew,
  setAside,
} from './decision.ts'
import { asideWithDoubt } from './doubts.ts'
import { isFeed, mayFeed } from './due.ts'
import { evolveTakenBack, lateRound } from './rounds.ts'

export function decideCorrect(
  board: Board,
  command: CommandOf<'CorrectFeed'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const named = nest.rounds.find((other) => other.no === command.claimNo)
  if (named?.movedTo && named.movedTo === command.toNest) return nothingNew
  const round = named?.isTakenBack ? undefined : named
  if (!round) return happened(...asideWithDoubt(board, command, context, { why: 'roundUnknown' }))
  if (command.toNest !== undefined && command.toNest !== nest.id) {
    const target = board.nests[command.toNest]
    if (!target) return happened(...asideWithDoubt(board, command, context, { why: 'nestUnknown' }))
    return happened(...ontoOther(board, { nest, round, target }, command, context))
  }
  const answers = command.answers.filter((answer) => round.birds.includes(answer.bird))
  if (answers.length === 0)
    return happened(...asideWithDoubt(board, command, context, { why: 'birdUnknown' }))
  return happened({
    ...{ type: 'RoundCorrected', v: 1, nest: nest.id, no: round.no, by: context.by },
    ...{ atMs: context.nowMs, answers, reason: command.reason },
  })
}

type Mended = { readonly nest: Nest; readonly round: Round; readonly target: Nest }

function ontoOther(
  board: Board,
  { nest, round, target }: Mended,
  command: CommandOf<'CorrectFeed'>,
  context: Context,
): Events {
  const toNo = nextVisit(board)
  const moved: RoomEvent = {
    ...{ type: 'RoundMoved', v: 1, nest: nest.id, no: round.no, by: context.by },
    ...{ atMs: context.nowMs, reason: command.reason, toNest: target.id, toNo },
  }
  const { answers, notKnownWhich } = mapped(board, round, target.id)
  if (answers.length === 0) return [moved]
  const visit = {
    ...({
      no: toNo,
      standing: 'late',
      startedAtMs: round.startedAtMs,
      isSaid: round.isSaid,
    } as const),
    ...{ answers, notKnownWhich, person: round.person satisfies PersonId },
  }
  return [moved, ...lateRound(board, target, context, visit)]
}

type Mapped = { readonly answers: readonly Answer[]; readonly notKnownWhich?: NotKnownWhich }

/**
 * What the record says of the other nest's birds. A band says which bird is meant; the rest are fed
 * alike, and what some of them did otherwise is known only by how many.
 */
function mapped(board: Board, round: Round, to: NestId): Mapped {
  const told = round.birds.flatMap((id) => {
    const bird = board.birds[id]
    const feed = bird?.feeds.find((other) => other.no === round.no)
    return bird && feed ? [{ band: bird.band, feed }] : []
  })
  const all = birdsOf(board, to)
  const feedable = all.filter((bird) => mayFeed(board, bird))
  const birds = feedable.length > 0 ? feedable : all
  const byBand = (bird: Bird) => told.find(({ band }) => band !== null && band === bird.band)?.feed
  const rest = told.filter(({ band }) => band === null || !birds.some((bird) => bird.band === band))
  const other = rest.find(({ feed }) => !isFeed(feed.outcome))?.feed.outcome
  const unmatched = birds.filter((bird) => !byBand(bird))
  const isAnyFed = rest.length === 0 || rest.some(({ feed }) => isFeed(feed.outcome))
  const answers = birds.flatMap((bird): Answer[] => {
    const feed = byBand(bird)
    if (feed) return [answerOf(bird, feed)]
    if (rest.length === 0) return []
    return [{ bird: bird.id, outcome: isAnyFed ? 'ate' : (other ?? 'ate') }]
  })
  const others = rest.filter(({ feed }) => feed.outcome === other).length
  const count = Math.min(others, unmatched.length)
  if (!other || !isAnyFed || unmatched.length === 0) return { answers }
  return {
    answers,
    notKnownWhich: { outcome: other === 'refused' ? 'refused' : 'notFed', count },
  }
}

const answerOf = (bird: Bird, feed: Feed): Answer => ({
  ...{ bird: bird.id, outcome: feed.outcome },
  ...(feed.given ? { given: feed.given } : {}),
})

/** It counts here no more, and says where it went. */
export const evolveRoundMoved = (board: Board, event: EventOf<'RoundMoved'>): Board =>
  withNest(evolveTakenBack(board, { ...event, type: 'RoundTakenBack' }), event.nest, (nest) => ({
    ...nest,
    rounds: nest.rounds.map((round) =>
      round.no === event.no ? { ...round, movedTo: event.toNest } : round,
    ),
  }))
