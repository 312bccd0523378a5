// The open calls as one person sees them: put to them, taken by them, or made by them; and for
// everybody who has it. What takes a page and what is only a line is decided here too, so that
// nothing reaches hands that are in a nest unless it is about that nest.

import type { BirdId, InstantMs, NestId, PersonId, RequestId } from '../base/values.ts'
import { birdsOf } from '../board/change.ts'
import { type RequestKind, takeBackMs } from '../board/constants.ts'
import { hasRight } from '../board/rights.ts'
import type { Board, Nest, Request } from '../board/state.ts'
import { claimOf } from '../rules/decision.ts'
import { openRequests } from '../rules/openRequests.ts'
import { askedOf } from '../rules/requests.ts'
import { nameOf, type PublicNames } from './names.ts'
import { type Tally, tallyOf } from './tally.ts'

/** What a call is to this person. `mine`: they have taken it; `ofMine`: it is about what they did. */
export type CallStanding = 'putToMe' | 'mine' | 'ofMine' | 'others'

export type CallFeed = { readonly startedAtMs: InstantMs; readonly tally: readonly Tally[] }

export type CallShown = {
  readonly request: RequestId
  readonly kind: RequestKind
  readonly why: Request['why']
  readonly standing: CallStanding
  readonly nest: {
    readonly nest: NestId
    readonly label: string
    readonly incubatorLabel: string
    readonly birds: number
  } | null
  readonly bird: {
    readonly bird: BirdId
    readonly band: string | null
    readonly place: number
    readonly species: string | null
    readonly massMg: number | null
  } | null
  /** Who called, or whose records the board called for; null where it is nobody's any more. */
  readonly byName: string | null
  readonly isByMe: boolean
  readonly raisedAtMs: InstantMs
  readonly note: string | null
  readonly taken: { readonly name: string | null; readonly atMs: InstantMs } | null
  /** Those it is put to, while nobody has taken it. */
  readonly asked: readonly PersonId[]
  /** Latest first: when it was fed and what became of it. Never an amount. */
  readonly feeds: readonly CallFeed[]
  /** It is about the nest this person has in hand, or the incubator it stands in. */
  readonly isHere: boolean
  /** Until when whoever called may take the call back without a word. */
  readonly undoUntilMs: InstantMs | null
  /** Who took it, who called, or the lead. */
  readonly canResolve: boolean
}

type Of = { readonly person: PersonId; readonly nowMs: InstantMs }

const feedsShown = 3

/** Whose record made the board call: the last that was kept of that bird, or of the nest. */
function recordedBy(nest: Nest | undefined, bird: BirdId | null): PersonId | null {
  const round = nest?.rounds.findLast(
    ({ isTakenBack, birds }) => !isTakenBack && (bird === null || birds.includes(bird)),
  )
  return round?.person ?? null
}

const callerOf = (board: Board, request: Request): PersonId | null =>
  request.by ?? recordedBy(request.nest ? board.nests[request.nest] : undefined, request.bird)

function standingOf(board: Board, request: Request, person: PersonId): CallStanding {
  if (request.taken?.person === person) return 'mine'
  if (request.taken === null && askedOf(board, request).includes(person)) return 'putToMe'
  return callerOf(board, request) === person ? 'ofMine' : 'others'
}

function birdShown(board: Board, id: BirdId | null): CallShown['bird'] {
  const bird = id ? board.birds[id] : undefined
  if (!bird) return null
  const place = birdsOf(board, bird.nest).findIndex((one) => one.id === bird.id) + 1
  const massMg = bird.masses.at(-1)?.massMg ?? null
  return { bird: bird.id, band: bird.band, place, species: bird.species, massMg }
}

function nestShown(board: Board, nest: Nest | undefined): CallShown['nest'] {
  if (!nest) return null
  return {
    nest: nest.id,
    label: nest.label,
    incubatorLabel: board.incubators[nest.incubator]?.label ?? '',
    birds: birdsOf(board, nest.id).length,
  }
}

/** The last visits to the bird, or to the whole nest where no bird is named. */
function feedsOf(board: Board, request: Request, nest: Nest | undefined): readonly CallFeed[] {
  const bird = request.bird ? board.birds[request.bird] : undefined
  const fed = (no: number) =>
    (nest ? birdsOf(board, nest.id) : []).flatMap(
      (one) => one.feeds.find((feed) => feed.no === no)?.outcome ?? [],
    )
  const visits = bird
    ? bird.feeds.map(({ startedAtMs, outcome }) => ({ startedAtMs, tally: tallyOf([outcome]) }))
    : (nest?.rounds ?? [])
        .filter((round) => !round.isTakenBack)
        .map(({ no, startedAtMs }) => ({ startedAtMs, tally: tallyOf(fed(no)) }))
  return visits.slice(-feedsShown).reverse()
}

function shown(board: Board, names: PublicNames, request: Request, of: Of): CallShown {
  const nest = request.nest ? board.nests[request.nest] : undefined
  const inHand = claimOf(board, of.person)?.nest
  const actor = board.people[of.person]
  const isMine = request.taken?.person === of.person || request.by === of.person
  const undoUntilMs = request.raisedAtMs + takeBackMs
  return {
    ...{ request: request.id, kind: request.kind, why: request.why },
    ...{ raisedAtMs: request.raisedAtMs, bird: birdShown(board, request.bird) },
    standing: standingOf(board, request, of.person),
    nest: nestShown(board, nest),
    byName: nameOf(board, names, callerOf(board, request)),
    isByMe: request.by === of.person,
    note: request.noteId ? (names[request.noteId]?.note ?? null) : null,
    taken: request.taken && {
      name: nameOf(board, names, request.taken.person),
      atMs: request.taken.atMs,
    },
    asked: request.taken ? [] : askedOf(board, request),
    feeds: feedsOf(board, request, nest),
    isHere: inHand !== undefined && nest?.incubator === inHand.incubator,
    undoUntilMs: request.by === of.person && of.nowMs < undoUntilMs ? undoUntilMs : null,
    canResolve: isMine || (actor !== undefined && hasRight(actor, 'lead')),
  }
}

/** Every open call, the oldest first; none for a person who is not here. */
export function callsView(board: Board, names: PublicNames, of: Of): readonly CallShown[] {
  const shift = board.people[of.person]?.shift ?? 'off'
  if (shift === 'off') return []
  return [...openRequests(board)]
    .sort((a, b) => a.raisedAtMs - b.raisedAtMs)
    .map((request) => shown(board, names, request, of))
}

/** One call; null once it is over. */
export function callView(
  board: Board,
  names: PublicNames,
  of: Of & { readonly request: RequestId },
): CallShown | null {
  const request = board.requests[of.request]
  return request ? shown(board, names, request, of) : null
}

/**
 * The call that takes this person's page. With empty hands: the one they have taken, else the oldest
 * put to them. With a nest in hand: only one put to them for that nest or its incubator.
 */
export function callForPage(board: Board, names: PublicNames, of: Of): CallShown | null {
  const calls = callsView(board, names, of)
  const put = calls.filter(({ standing }) => standing === 'putToMe')
  if (claimOf(board, of.person)) return put.find(({ isHere }) => isHere) ?? null
  return calls.find(({ standing }) => standing === 'mine') ?? put[0] ?? null
}
