// The visit itself: the nest is open, the birds are answered for, the feeder is called away. All of
// these are reports, so each ends in a record whatever the board looked like by the time it came.

import type { BirdId, InstantMs, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import { freshStartMs } from '../board/constants.ts'
import type { RoomEvent } from '../board/events.ts'
import type { Answer } from '../board/parts.ts'
import type { Board, Held, Nest } from '../board/state.ts'
import { claimEnded, claimed, givenBackElsewhere } from './claiming.ts'
import type { Context } from './context.ts'
import { counted } from './countingBack.ts'
import {
  type Decision,
  doubtOf,
  type Events,
  happened,
  heldBy,
  nextVisit,
  nothingNew,
  setAside,
} from './decision.ts'
import { asideWithDoubt, doubtEnded, raised } from './doubts.ts'
import { mayFeed, readyBirds } from './due.ts'
import { feedingMs } from './lease.ts'
import { leadTold } from './notices.ts'
import { offerAnswered } from './offers.ts'
import { boundedSaidMs, lateRound, recorded } from './rounds.ts'
import { isQuick, quickNews } from './tooQuick.ts'
import { whyNotClaim } from './whyNotClaim.ts'

/** The claim this report speaks of, when it is still the reporter's own. */
function currentClaim(nest: Nest, claimNo: number | undefined, context: Context): Held | null {
  const held = heldBy(nest)
  return held && held.claimNo === claimNo && held.person === context.by ? held : null
}

/**
 * The number a visit outside the present claim is kept under: its own when it can have been given to
 * this nest, else the fresh one. A number from the future, of another nest, or in somebody's hands says
 * nothing of this visit.
 */
function visitNumber(
  board: Board,
  nest: Nest,
  claimNo: number | undefined,
  freshNo: number,
): number {
  if (claimNo === undefined || claimNo > board.counters.visit) return freshNo
  if (heldBy(nest)?.claimNo === claimNo || isOfNoVisit(board, claimNo)) return freshNo
  // A bird that was moved brings the doubt of its visit along, under the visit's number.
  if (knowsNumber(nest, claimNo)) return claimNo
  const isElsewhere = Object.values(board.nests).some(
    (other) => other.id !== nest.id && knowsNumber(other, claimNo),
  )
  return isElsewhere ? freshNo : claimNo
}

/** The number of a doubt about two records, which was never a visit's. */
const isOfNoVisit = (board: Board, no: number): boolean =>
  Object.values(board.nests).some(({ doubts }) =>
    doubts.some((doubt) => doubt.kind === 'twice' && doubt.no === no),
  )

const knowsNumber = (nest: Nest, no: number): boolean =>
  heldBy(nest)?.claimNo === no ||
  doubtOf(nest, no) !== null ||
  nest.lastEnd?.claimNo === no ||
  nest.rounds.some((round) => round.no === no)

export function decideAnswer(
  board: Board,
  command: CommandOf<'AnswerBirds'>,
  context: Context,
): Decision {
  const nests = new Set(command.answers.flatMap((answer) => board.birds[answer.bird]?.nest ?? []))
  const events: RoomEvent[] = []
  // Each nest's visit has a number of its own, and so has a doubt raised beside them.
  let freshNo = nextVisit(board)
  for (const id of nests) {
    const nest = board.nests[id]
    const answers = command.answers.filter((answer) => board.birds[answer.bird]?.nest === id)
    if (!nest) continue
    const visit = answersAt(board, nest, { ...command, answers }, { ...context, freshNo })
    events.push(...visit)
    if (visit.some((event) => 'no' in event && event.no === freshNo)) freshNo += 1
  }
  if (command.answers.every((answer) => board.birds[answer.bird])) return happened(...events)
  return happened(
    ...events,
    ...asideWithDoubt(board, command, context, { why: 'birdUnknown', no: freshNo }),
  )
}

/** A turn's context, and the number a visit without one will be given. */
type Numbered = Context & { readonly freshNo: number }

function answersAt(
  board: Board,
  nest: Nest,
  command: CommandOf<'AnswerBirds'>,
  context: Numbered,
): Events {
  const held = currentClaim(nest, command.claimNo, context)
  if (!held) return answersOutside(board, nest, command, context)
  const answers = command.answers
  const answered = [...held.answered, ...answers.map((answer) => answer.bird)]
  const isTooQuick = isQuick(board, held, answers, context)
  const isDone = held.birds.every((bird) => answered.includes(bird))
  return [
    recorded(board, nest, context, {
      no: held.claimNo,
      standing: 'current',
      startedAtMs: held.startedAtMs,
      isSaid: false,
      answers,
      notKnownWhich: command.notKnownWhich,
      back: command.back,
      door: command.door,
      isTooQuick,
    }),
    ...(isTooQuick ? leadTold(board, quickNews(nest, held, context), context.nowMs) : []),
    ...countIn(board, nest, { no: held.claimNo, startedAtMs: held.startedAtMs }, command, context),
    ...(isDone ? [claimEnded(nest.id, held.claimNo, 'fed', context.nowMs)] : []),
  ]
}

/** What the count at put-back says, where one was made. */
const countIn = (
  board: Board,
  nest: Nest,
  visit: { readonly no: number; readonly startedAtMs: InstantMs },
  command: CommandOf<'AnswerBirds'>,
  context: Context,
): Events =>
  command.back === undefined || command.nest !== nest.id
    ? []
    : counted(board, nest, { ...visit, back: command.back }, context)

function answersOutside(
  board: Board,
  nest: Nest,
  command: CommandOf<'AnswerBirds'>,
  context: Numbered,
): Events {
  const no = visitNumber(board, nest, command.claimNo, context.freshNo)
  const isOld = no === command.claimNo
  const startedAtMs = startOf(nest, no, command, context)
  const isSaidMoved = command.saidAtMs !== undefined && command.saidAtMs !== startedAtMs
  const isBounded = context.isBounded || isSaidMoved
  return [
    ...lateRound(
      board,
      nest,
      { ...context, isBounded },
      {
        no,
        standing: isOld ? 'late' : 'unclaimed',
        startedAtMs,
        isSaid: command.saidAtMs !== undefined,
        answers: command.answers,
        notKnownWhich: command.notKnownWhich,
        back: command.back,
        door: command.door,
      },
    ),
    ...countIn(board, nest, { no, startedAtMs }, command, context),
    ...shrunkDoubt(nest, no, command.answers),
  ]
}

/** One visit has one start: what the board knows of its number comes before what the device says. */
function startOf(
  nest: Nest,
  no: number,
  command: CommandOf<'AnswerBirds'>,
  context: Context,
): InstantMs {
  const round = nest.rounds.find((other) => other.no === no)
  const known = round?.startedAtMs ?? doubtOf(nest, no)?.aboutAtMs
  if (known !== undefined) return known
  if (command.saidAtMs !== undefined) {
    return boundedSaidMs(nest, command.saidAtMs, context.nowMs)
  }
  return context.startedAtMs ?? context.notedAtMs
}

function shrunkDoubt(nest: Nest, no: number, answers: readonly Answer[]): Events {
  const doubt = doubtOf(nest, no)
  if (!doubt) return []
  const answered = new Set(answers.map((answer) => answer.bird))
  const left = doubt.birds.filter((bird) => !answered.has(bird))
  if (left.length === 0) return [doubtEnded(nest.id, no, 'recorded')]
  return left.length === doubt.birds.length
    ? []
    : [{ type: 'DoubtShrunk', v: 1, nest: nest.id, no, birds: left }]
}

export function decideStart(
  board: Board,
  command: CommandOf<'StartFeed'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const held = currentClaim(nest, command.claimNo, context)
  if (held) {
    const startedAtMs = Math.max(context.notedAtMs, held.claimedAtMs)
    const leaseEndsAtMs = Math.max(startedAtMs + feedingMs(held.birds.length), context.nowMs)
    return happened({
      type: 'FeedStarted',
      v: 1,
      nest: nest.id,
      claimNo: held.claimNo,
      startedAtMs,
      leaseEndsAtMs,
    })
  }
  const no = visitNumber(board, nest, command.claimNo, nextVisit(board))
  const isToldAlready = nest.rounds.some((round) => round.no === no) || doubtOf(nest, no) !== null
  if (isToldAlready) return nothingNew
  const isFresh = context.nowMs - context.notedAtMs < freshStartMs
  if (isFresh && !heldBy(nest) && whyNotClaim(board, context.by, nest.id, context.nowMs) === null) {
    return claimAnew(board, nest, context)
  }
  return openedUnseen(board, nest, no, context)
}

/** Somebody opened the nest a moment ago and nobody else has it: then it is theirs. */
function claimAnew(board: Board, nest: Nest, context: Context): Decision {
  const birds = readyBirds(board, nest.id, context.by, context.nowMs).map((bird) => bird.id)
  return happened(
    ...givenBackElsewhere(board, context.by, context.nowMs),
    ...offerAnswered(nest, context.by, context.nowMs),
    claimed(board, nest.id, birds, {
      person: context.by,
      nowMs: context.nowMs,
      startedAtMs: context.notedAtMs,
      startIs: 'tapped',
    }),
  )
}

function openedUnseen(board: Board, nest: Nest, no: number, context: Context): Decision {
  const brood = birdsOf(board, nest.id)
  const feedable = brood.filter((bird) => mayFeed(board, bird))
  const birds = (feedable.length > 0 ? feedable : brood).map((bird) => bird.id)
  if (birds.length === 0) return nothingNew
  const visit = { no, birds, aboutAtMs: context.notedAtMs, owner: context.by }
  return happened(...perhapsFed(nest, visit, context.nowMs))
}

export type VisitInDoubt = {
  readonly no: number
  readonly birds: readonly BirdId[]
  readonly aboutAtMs: InstantMs
  /** Who is asked what happened; null puts the question to the lead. */
  readonly owner: PersonId | null
}

/** A doubt over a visit, and a warning to whoever has the nest in hand. */
export function perhapsFed(nest: Nest, visit: VisitInDoubt, nowMs: InstantMs): Events {
  const held = heldBy(nest)
  const stop = { type: 'StopCalled', v: 1, nest: nest.id, why: 'perhapsFed' } as const
  return [
    ...raised(nest, { kind: 'silent', ...visit }, nowMs),
    ...(held ? [{ ...stop, claimNo: held.claimNo }] : []),
  ]
}

export function decideCalledAway(
  board: Board,
  command: CommandOf<'CalledAway'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return happened(setAside(command, context, 'nestUnknown'))
  const held = currentClaim(nest, command.claimNo, context)
  if (!held) return nothingNew
  // An opened nest has been visited, even if nothing was said of any bird.
  const isVisited = held.answered.length > 0 || held.startIs === 'tapped'
  const how = isVisited ? 'partly' : 'givenBack'
  return happened(claimEnded(nest.id, held.claimNo, how, context.nowMs))
}
