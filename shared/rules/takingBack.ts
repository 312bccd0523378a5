// Undoing a record. Nothing is deleted: the round stays and says it was taken back. Within ten seconds a
// record is simply undone; later the same command says what is true. A bird that has moved since is
// spoken of where it is now.

import type { BirdId } from '../base/values.ts'
import { byNestNow } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { freshStartMs, takeBackMs } from '../board/constants.ts'
import type { EventOf, RoomEvent } from '../board/events.ts'
import type { Board, Nest, Round } from '../board/state.ts'
import { claimed, givenBackElsewhere } from './claiming.ts'
import type { Context } from './context.ts'
import {
  claimOf,
  type Decision,
  type Events,
  happened,
  heldBy,
  nextVisit,
  nothingNew,
  setAside,
} from './decision.ts'
import { asideWithDoubt } from './doubts.ts'
import { isFeed } from './due.ts'
import { perhapsFed } from './feeding.ts'
import { offerAnswered } from './offers.ts'
import { recorded } from './rounds.ts'
import { isUntouched } from './whyNotClaim.ts'

export function decideTakeBack(
  board: Board,
  command: CommandOf<'TakeBackFeed'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const round = nest.rounds.find((other) => other.no === command.claimNo)
  if (!round) return happened(...asideWithDoubt(board, command, context, { why: 'roundUnknown' }))
  if (round.isTakenBack) return nothingNew
  const takenBack: EventOf<'RoundTakenBack'> = {
    type: 'RoundTakenBack',
    v: 1,
    nest: nest.id,
    no: round.no,
    by: context.by,
    atMs: context.nowMs,
  }
  // Its claim is still in hand: the birds are simply unanswered again.
  if (heldBy(nest)?.claimNo === round.no) return happened(takenBack)
  const isQuick = context.notedAtMs - round.recordedAtMs <= takeBackMs
  const rest = isQuick
    ? undone(board, nest, round, context)
    : answeredLater(board, round, command, context)
  return happened(takenBack, ...rest)
}

/** Within ten seconds: the feeder is back where they were, with the nest in their hands. */
function undone(board: Board, nest: Nest, round: Round, context: Context): readonly RoomEvent[] {
  const other = claimOf(board, context.by)
  const isFree = other === null || isUntouched(other.held, context.nowMs)
  const isPresent = board.people[context.by]?.shift === 'on' && round.person === context.by
  // One that was away for a while comes from somebody who is no longer standing there.
  const isFresh = context.nowMs - context.notedAtMs < freshStartMs
  if (heldBy(nest) || !isFree || !isPresent || !isFresh) {
    return perhapsFedNow(board, round.birds, round, context)
  }
  const isHere = (bird: BirdId) => board.birds[bird]?.nest === nest.id
  const here = round.birds.filter(isHere)
  const moved = round.birds.filter((bird) => !isHere(bird))
  if (here.length === 0) return perhapsFedNow(board, moved, round, context)
  return [
    ...perhapsFedNow(board, moved, round, context),
    ...givenBackElsewhere(board, context.by, context.nowMs),
    ...offerAnswered(nest, context.by, context.nowMs),
    claimed(board, nest.id, here, {
      person: context.by,
      nowMs: context.nowMs,
      startedAtMs: round.startedAtMs,
      startIs: 'tapped',
    }),
  ]
}

/** A doubt over these birds of a visit, each where it is now; whoever fed is asked, if still here. */
function perhapsFedNow(
  board: Board,
  birds: readonly BirdId[],
  round: Round,
  context: Context,
): Events {
  const owner = board.people[round.person]?.isRemoved === false ? round.person : null
  const about = { no: round.no, aboutAtMs: round.startedAtMs, owner }
  return byNestNow(board, birds).flatMap((group) =>
    perhapsFed(group.nest, { ...about, birds: group.birds }, context.nowMs),
  )
}

function answeredLater(
  board: Board,
  round: Round,
  command: CommandOf<'TakeBackFeed'>,
  context: Context,
): readonly RoomEvent[] {
  if (command.wasFed === 'no') return []
  if (command.wasFed !== 'yes') {
    return perhapsFedNow(board, round.birds, round, context)
  }
  const fed = round.birds.filter((bird) =>
    board.birds[bird]?.feeds.some((feed) => feed.no === round.no && isFeed(feed.outcome)),
  )
  return byNestNow(board, fed).map(({ nest, birds }, at) =>
    recorded(board, nest, context, {
      no: nextVisit(board) + at,
      standing: 'unclaimed',
      startedAtMs: round.startedAtMs,
      isSaid: true,
      answers: birds.map((bird) => ({ bird, outcome: 'ate' })),
    }),
  )
}
