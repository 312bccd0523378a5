// What is open in the room and waits for somebody, for the desk's left side: calls, birds not counted
// back, what the lead is told, doubts, holds with their look-again, arrivals that settle. Everything
// here goes by being dealt with, never by being looked at.

import type { InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import type { RequestKind } from '../board/constants.ts'
import type { Hold } from '../board/parts.ts'
import { hasRight } from '../board/rights.ts'
import type { Bird, Board, Doubt, Nest, Request } from '../board/state.ts'
import { warnsFromMs } from '../rules/doubts.ts'
import { lookAgainStanding } from '../rules/holds.ts'
import { openRequests } from '../rules/openRequests.ts'
import { askedOf } from '../rules/requests.ts'
import { type NamedBird, namedBird } from './deskBird.ts'
import { nameOf, type PublicNames } from './names.ts'
import { byLabel } from './nestOrder.ts'
import { type NoticeShown, noticesView } from './noticesView.ts'
import { type ShortNest, shortNests } from './shortNests.ts'
import { wouldRefuse } from './wouldRefuse.ts'

/** Where an open thing stands; null where it is about no nest. */
type Place = { readonly nest: NestId; readonly label: string; readonly incubatorLabel: string }

export type OpenCall = {
  readonly request: RequestId
  readonly kind: RequestKind
  readonly why: Request['why']
  readonly place: Place | null
  readonly bird: NamedBird | null
  readonly byName: string | null
  readonly isByPerson: boolean
  readonly raisedAtMs: InstantMs
  readonly note: string | null
  readonly taken: { readonly name: string | null; readonly atMs: InstantMs } | null
  /** How many people it is put to while nobody has taken it. */
  readonly askedOf: number
  readonly can: { readonly take: boolean; readonly putBack: boolean; readonly resolve: boolean }
}

export type OpenDoubt = Place & {
  readonly no: number
  readonly kind: Doubt['kind']
  readonly ownerName: string | null
  readonly hasOwner: boolean
  readonly aboutAtMs: InstantMs
  readonly raisedAtMs: InstantMs
  readonly birds: readonly NamedBird[]
  /** Birds somebody has looked at since. */
  readonly looked: number
  /** Only its owner is asked so far; nobody else is warned. */
  readonly isQuiet: boolean
  /** The question is this person's to answer. */
  readonly isMine: boolean
}

export type OpenHold = Place & {
  /** The one bird that is held; null where the whole nest is. */
  readonly bird: NamedBird | null
  readonly reason: string
  readonly byName: string | null
  readonly lookAgainAtMs: InstantMs
  readonly standing: ReturnType<typeof lookAgainStanding>
  readonly canLift: boolean
}

export type OpenArrival = Place & {
  readonly birds: readonly NamedBird[]
  readonly size: string | null
  readonly lookDueAtMs: InstantMs
  readonly isLookDue: boolean
  readonly canRelease: boolean
}

export type DeskOpen = {
  readonly calls: readonly OpenCall[]
  readonly shorts: readonly ShortNest[]
  /** None for anybody but a lead. */
  readonly notices: readonly NoticeShown[]
  readonly doubts: readonly OpenDoubt[]
  readonly holds: readonly OpenHold[]
  readonly arrivals: readonly OpenArrival[]
}

type Of = {
  readonly board: Board
  readonly names: PublicNames
  readonly person: PersonId
  readonly nowMs: InstantMs
}

const placeOf = (board: Board, { id, label, incubator }: Nest): Place => ({
  nest: id,
  label,
  incubatorLabel: board.incubators[incubator]?.label ?? '',
})

function callOf({ board, names, person, nowMs }: Of, request: Request): OpenCall {
  const may = (command: CommandOf<'TakeRequest' | 'ResolveRequest'>) =>
    wouldRefuse(board, command, { person, nowMs }) === null
  const nest = request.nest ? board.nests[request.nest] : undefined
  const isMine = request.taken?.person === person
  const of = { v: 1, request: request.id } as const
  return {
    ...{ request: request.id, kind: request.kind, why: request.why },
    place: nest ? placeOf(board, nest) : null,
    bird: request.bird ? namedBird(board, request.bird) : null,
    byName: nameOf(board, names, request.by),
    isByPerson: request.by !== null,
    raisedAtMs: request.raisedAtMs,
    note: request.noteId ? (names[request.noteId]?.note ?? null) : null,
    taken: request.taken && {
      name: nameOf(board, names, request.taken.person),
      atMs: request.taken.atMs,
    },
    askedOf: askedOf(board, request).length,
    can: {
      take: request.taken === null && may({ type: 'TakeRequest', ...of }),
      putBack: isMine,
      resolve: may({ type: 'ResolveRequest', ...of }),
    },
  }
}

function doubtOf({ board, names, person, nowMs }: Of, nest: Nest, doubt: Doubt): OpenDoubt {
  const actor = board.people[person]
  const asksLead = doubt.owner === null && doubt.kind !== 'twice'
  return {
    ...placeOf(board, nest),
    ...{ no: doubt.no, kind: doubt.kind, aboutAtMs: doubt.aboutAtMs },
    raisedAtMs: doubt.raisedAtMs,
    ownerName: nameOf(board, names, doubt.owner),
    hasOwner: doubt.owner !== null,
    birds: doubt.birds.flatMap((bird) => namedBird(board, bird) ?? []),
    looked: doubt.looked.length,
    isQuiet: doubt.owner !== null && nowMs < warnsFromMs(board, doubt),
    isMine: doubt.owner === person || (asksLead && actor !== undefined && hasRight(actor, 'lead')),
  }
}

function holdsOf({ board, names, person, nowMs }: Of, nest: Nest): readonly OpenHold[] {
  const shown = (hold: Hold | null, bird: Bird | null): readonly OpenHold[] => {
    if (!hold) return []
    const which = bird ? { bird: bird.id } : {}
    const lift = { type: 'LiftHold', v: 1, nest: nest.id, ...which, whyLifted: 'asked' } as const
    return [
      {
        ...placeOf(board, nest),
        bird: bird ? namedBird(board, bird.id) : null,
        reason: hold.reason,
        byName: nameOf(board, names, hold.by),
        lookAgainAtMs: hold.lookAgainAtMs,
        standing: lookAgainStanding(hold, nowMs),
        canLift: wouldRefuse(board, lift, { person, nowMs }) === null,
      },
    ]
  }
  return [
    ...shown(nest.hold, null),
    ...birdsOf(board, nest.id).flatMap((bird) => shown(bird.hold, bird)),
  ]
}

function arrivalOf({ board, person, nowMs }: Of, nest: Nest): readonly OpenArrival[] {
  const settling = birdsOf(board, nest.id).filter((bird) => bird.standing.type === 'settling')
  const looks = settling.flatMap(({ standing }) =>
    standing.type === 'settling' ? [standing.lookDueAtMs] : [],
  )
  if (looks.length === 0) return []
  const actor = board.people[person]
  const lookDueAtMs = Math.min(...looks)
  return [
    {
      ...placeOf(board, nest),
      birds: settling.flatMap((bird) => namedBird(board, bird.id) ?? []),
      size: settling[0]?.size ?? null,
      lookDueAtMs,
      isLookDue: lookDueAtMs <= nowMs,
      canRelease: actor !== undefined && hasRight(actor, 'release'),
    },
  ]
}

/** What waits at `nowMs`, each list with the longest waiting first. */
export function deskOpen(of: Of): DeskOpen {
  const nests = Object.values(of.board.nests).sort(byLabel)
  return {
    calls: openRequests(of.board)
      .map((request) => callOf(of, request))
      .sort(
        (a, b) =>
          Number(a.taken !== null) - Number(b.taken !== null) || a.raisedAtMs - b.raisedAtMs,
      ),
    shorts: shortNests(of.board),
    notices: noticesView(of.board, of.names, of.person),
    doubts: nests
      .flatMap((nest) => nest.doubts.map((doubt) => doubtOf(of, nest, doubt)))
      .sort((a, b) => a.raisedAtMs - b.raisedAtMs),
    holds: nests
      .flatMap((nest) => holdsOf(of, nest))
      .sort((a, b) => a.lookAgainAtMs - b.lookAgainAtMs),
    arrivals: nests
      .flatMap((nest) => arrivalOf(of, nest))
      .sort((a, b) => a.lookDueAtMs - b.lookDueAtMs),
  }
}
