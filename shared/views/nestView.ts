// One nest's own page on the handheld: its birds and what keeps each from being fed, how this person
// can have it, what was recorded lately, and what this person may do to it.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { Hold, NotKnownWhich } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Bird, Board, Nest, Round } from '../board/state.ts'
import { openRequests } from '../rules/openRequests.ts'
import type { NotReady } from '../rules/rejection.ts'
import { whyNotFeed } from '../rules/whyNotClaim.ts'
import { type BirdRow, birdRow } from './birdRow.ts'
import { type ClaimWay, claimWay } from './claimWay.ts'
import { nameOf, type PublicNames } from './names.ts'
import { type NestSummary, nestSummary } from './nestState.ts'
import { type NestWarning, nestWarnings } from './nestWarnings.ts'
import { type PlanLine, planLines } from './planLine.ts'
import { type Tally, tallyOf } from './tally.ts'
import { wouldRefuse } from './wouldRefuse.ts'

export type NestBird = BirdRow & {
  readonly whyNot: NotReady | null
  readonly canLift: boolean
  /** When it was last given fluids here; null where it never was. */
  readonly fluidsAtMs: InstantMs | null
}

export type RoundShown = {
  readonly no: number
  readonly name: string | null
  readonly isMine: boolean
  readonly startedAtMs: InstantMs
  readonly isSaid: boolean
  readonly isTakenBack: boolean
  /** The label of the nest that was really fed, where the record was put there. */
  readonly movedTo: string | null
  readonly tally: readonly Tally[]
  readonly notKnownWhich: NotKnownWhich | null
}

export type NestView = {
  readonly summary: NestSummary
  readonly way: ClaimWay
  readonly birds: readonly NestBird[]
  readonly plans: readonly PlanLine[]
  readonly warnings: readonly NestWarning[]
  readonly hold: Hold | null
  readonly holdByName: string | null
  /** Latest first. */
  readonly rounds: readonly RoundShown[]
  readonly settling: number
  readonly can: {
    readonly hold: boolean
    readonly lift: boolean
    readonly release: boolean
    /** Signed off for them, and they may be needed here: an arrival, or somebody is called. */
    readonly fluids: boolean
  }
}

function roundShown(board: Board, names: PublicNames, round: Round, person: PersonId): RoundShown {
  const fed = round.birds.flatMap(
    (id) => board.birds[id]?.feeds.find((feed) => feed.no === round.no)?.outcome ?? [],
  )
  return {
    no: round.no,
    name: nameOf(board, names, round.person),
    isMine: round.person === person,
    startedAtMs: round.startedAtMs,
    isSaid: round.isSaid,
    isTakenBack: round.isTakenBack,
    movedTo: round.movedTo === null ? null : (board.nests[round.movedTo]?.label ?? null),
    tally: tallyOf(fed),
    notKnownWhich: round.notKnownWhich,
  }
}

type Of = { readonly nest: NestId; readonly person: PersonId; readonly nowMs: InstantMs }

const canLift = (board: Board, of: Of, bird?: Bird): boolean =>
  wouldRefuse(
    board,
    {
      type: 'LiftHold',
      v: 1,
      nest: of.nest,
      ...(bird ? { bird: bird.id } : {}),
      whyLifted: 'asked',
    },
    of,
  ) === null

function birdsShown(board: Board, nest: Nest, of: Of): readonly NestBird[] {
  return birdsOf(board, nest.id).map((bird, at) => ({
    ...birdRow(board, { nest, bird, place: at + 1 }),
    whyNot: whyNotFeed(board, bird, of.person, of.nowMs),
    canLift: bird.hold !== null && canLift(board, of, bird),
    fluidsAtMs: bird.fluidsAtMs || null,
  }))
}

const isCalledFor = (board: Board, nest: Nest): boolean =>
  openRequests(board).some((request) => request.nest === nest.id && request.kind !== 'help')

/** The page of a nest for this person at `nowMs`; null where there is no such nest. */
export function nestView(board: Board, names: PublicNames, of: Of): NestView | null {
  const nest = board.nests[of.nest]
  const actor = board.people[of.person]
  if (!nest || !actor) return null
  const birds = birdsShown(board, nest, of)
  const settling = birds.filter((bird) => bird.isSettling).length
  return {
    summary: nestSummary(board, names, { nest, nowMs: of.nowMs }),
    way: claimWay(board, of),
    birds,
    plans: planLines(board, birdsOf(board, nest.id)),
    warnings: nestWarnings(board, names, nest),
    hold: nest.hold,
    holdByName: nameOf(board, names, nest.hold?.by ?? null),
    rounds: [...nest.rounds].reverse().map((round) => roundShown(board, names, round, of.person)),
    settling,
    can: {
      hold: hasRight(actor, 'lead') && nest.hold === null,
      lift: nest.hold !== null && canLift(board, of),
      release: settling > 0 && hasRight(actor, 'release'),
      fluids: hasRight(actor, 'fluids') && (settling > 0 || isCalledFor(board, nest)),
    },
  }
}
