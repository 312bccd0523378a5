// One nest opened on the desk: its birds with what each is given and did lately, its records as they
// can be corrected, and what this person may do to it.

import type { Amount, IncubatorId, InstantMs, LengthMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { CarePlan, Hold } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Bird, Board, Feed, Nest, Round } from '../board/state.ts'
import { intervalMs, planOf } from '../rules/due.ts'
import { requestOn } from '../rules/openRequests.ts'
import { type BirdRow, birdRow } from './birdRow.ts'
import { type NamedBird, namedBird } from './deskBird.ts'
import { codesOf } from './deskNests.ts'
import { nameOf, type PublicNames } from './names.ts'
import { byLabel } from './nestOrder.ts'
import { type NestDoubt, type NestSummary, nestSummary, warningDoubts } from './nestState.ts'
import { type Askable, whoToAsk } from './whoToAsk.ts'
import { wouldRefuse } from './wouldRefuse.ts'

const feedsShown = 3

export type DeskBird = BirdRow & {
  readonly plan: CarePlan | null
  readonly everyMs: LengthMs
  /** Latest first, the last three. */
  readonly feeds: readonly Feed[]
  readonly massesMg: { readonly arrival: number | null; readonly latest: Bird['masses'] }
  readonly ownHold: Hold | null
  readonly holdByName: string | null
  readonly isCalledFor: boolean
}

export type RecordedAnswer = NamedBird & Pick<Feed, 'outcome' | 'given'>

export type DeskRound = {
  readonly no: number
  readonly name: string | null
  readonly startedAtMs: InstantMs
  readonly recordedAtMs: InstantMs
  readonly standing: Round['standing']
  readonly isSaid: boolean
  readonly isTakenBack: boolean
  readonly movedToLabel: string | null
  readonly back: number | null
  readonly door: Round['door']
  readonly marks: Round['marks']
  readonly notKnownWhich: Round['notKnownWhich']
  readonly corrections: number
  /** What is still known of each bird; the board keeps a bird's last few visits only. */
  readonly answers: readonly RecordedAnswer[]
}

export type DeskNestView = {
  readonly summary: NestSummary
  readonly species: readonly string[]
  readonly birds: readonly DeskBird[]
  /** Latest first. */
  readonly rounds: readonly DeskRound[]
  readonly hold: Hold | null
  readonly holdByName: string | null
  readonly doubts: readonly (Omit<NestDoubt, 'isAsking'> & { readonly isTwice: boolean })[]
  readonly missing: number
  readonly note: string | null
  readonly asked: { readonly name: string | null; readonly endsAtMs: InstantMs } | null
  /** Free people who could take it if they were asked, by name. */
  readonly askable: readonly Askable[]
  readonly otherNests: readonly Pick<Nest, 'id' | 'label' | 'isQuarantined'>[]
  readonly otherIncubators: readonly { readonly id: IncubatorId; readonly label: string }[]
  /** Units amounts of this nest are in, by the plans of its birds. */
  readonly unit: Amount['unit']
  readonly can: {
    readonly lead: boolean
    readonly lift: boolean
    readonly release: boolean
  }
}

type Of = { readonly nest: NestId; readonly person: PersonId; readonly nowMs: InstantMs }

function birdsShown(board: Board, names: PublicNames, nest: Nest): readonly DeskBird[] {
  return birdsOf(board, nest.id).map((bird, at) => ({
    ...birdRow(board, { nest, bird, place: at + 1 }),
    plan: planOf(board, bird),
    everyMs: intervalMs(board, bird),
    feeds: [...bird.feeds].reverse().slice(0, feedsShown),
    massesMg: { arrival: bird.arrivalMassMg, latest: bird.masses },
    ownHold: bird.hold,
    holdByName: nameOf(board, names, bird.hold?.by ?? null),
    isCalledFor: requestOn(board, bird) !== null,
  }))
}

function roundShown(board: Board, names: PublicNames, round: Round): DeskRound {
  const answers = round.birds.flatMap((id) => {
    const named = namedBird(board, id)
    const feed = board.birds[id]?.feeds.find((one) => one.no === round.no)
    return named && feed ? [{ ...named, outcome: feed.outcome, given: feed.given }] : []
  })
  return {
    ...{ no: round.no, startedAtMs: round.startedAtMs, recordedAtMs: round.recordedAtMs },
    ...{ standing: round.standing, isSaid: round.isSaid, isTakenBack: round.isTakenBack },
    ...{ back: round.back, door: round.door, marks: round.marks },
    ...{ notKnownWhich: round.notKnownWhich, corrections: round.corrections, answers },
    name: nameOf(board, names, round.person),
    movedToLabel: round.movedTo ? (board.nests[round.movedTo]?.label ?? null) : null,
  }
}

const canLift = (board: Board, of: Of): boolean =>
  wouldRefuse(board, { type: 'LiftHold', v: 1, nest: of.nest, whyLifted: 'asked' }, of) === null

function elsewhere(board: Board, nest: Nest): Pick<DeskNestView, 'otherNests' | 'otherIncubators'> {
  return {
    otherNests: Object.values(board.nests)
      .filter(({ id }) => id !== nest.id)
      .sort(byLabel),
    otherIncubators: Object.values(board.incubators)
      .filter(({ id }) => id !== nest.incubator)
      .sort(byLabel),
  }
}

/** The nest for this person at `nowMs`; null where there is no such nest. */
export function deskNest(board: Board, names: PublicNames, of: Of): DeskNestView | null {
  const nest = board.nests[of.nest]
  const actor = board.people[of.person]
  if (!nest || !actor) return null
  const birds = birdsShown(board, names, nest)
  return {
    summary: nestSummary(board, names, { nest, nowMs: of.nowMs }),
    species: codesOf(birdsOf(board, nest.id)),
    birds,
    rounds: [...nest.rounds].reverse().map((round) => roundShown(board, names, round)),
    hold: nest.hold,
    holdByName: nameOf(board, names, nest.hold?.by ?? null),
    doubts: warningDoubts(nest).map(({ no, owner, aboutAtMs, kind }) => ({
      ...{ no, owner, aboutAtMs, name: nameOf(board, names, owner), isTwice: kind === 'twice' },
    })),
    missing: nest.short?.missing ?? 0,
    note: nest.noteId ? (names[nest.noteId]?.note ?? null) : null,
    asked: nest.offer && {
      name: nameOf(board, names, nest.offer.person),
      endsAtMs: nest.offer.endsAtMs,
    },
    askable: whoToAsk(board, names, of).filter(({ why, isAsked }) => why === null && !isAsked),
    ...elsewhere(board, nest),
    unit: birds.find((bird) => bird.planned)?.planned?.unit ?? 'uL',
    can: {
      lead: hasRight(actor, 'lead'),
      lift: nest.hold !== null && canLift(board, of),
      release: birds.some((bird) => bird.isSettling) && hasRight(actor, 'release'),
    },
  }
}
