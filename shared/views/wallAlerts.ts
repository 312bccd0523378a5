// What the wall says in its top band: one line of data per thing somebody must act on. The words are
// the screen's; who is fetched, and when it is raised again, is the rules'. What only a lead is to know
// (a notice) never stands here.

import { unreachable } from '../base/control.ts'
import type { InstantMs, NestId } from '../base/values.ts'
import type { RequestKind } from '../board/constants.ts'
import type { Board, Nest, Request } from '../board/state.ts'
import { openRequests } from '../rules/openRequests.ts'
import { nameOf, type PublicNames } from './names.ts'
import type { WallNest } from './wallNest.ts'

/** How urgent: only `now` may fill the band. */
export type AlertLevel = 'now' | 'soon' | 'watch'

export type AlertKind =
  | RequestKind
  /** Fewer birds were counted back than the brood has: watch the doors. */
  | 'short'
  /** The same birds seem to have been fed twice. */
  | 'fedTwice'
  /** A hold whose look-again is ten minutes past. */
  | 'lookAgain'

export type WallAlert = {
  readonly key: string
  readonly level: AlertLevel
  readonly kind: AlertKind
  /** Null where somebody called from no nest. */
  readonly nest: NestId | null
  readonly label: string | null
  readonly incubatorLabel: string | null
  readonly sinceMs: InstantMs
  /** Who waits there, by first name; null where nobody does or the name was erased. */
  readonly waits: string | null
  /** Who has taken it; null while nobody has. */
  readonly taken: { readonly name: string | null } | null
  /** Birds not counted back; 0 for every other kind. */
  readonly birds: number
}

const levels: readonly AlertLevel[] = ['now', 'soon', 'watch']

/** The most urgent first, what nobody has taken before what somebody has, then the longest open. */
export function inAlertOrder(a: WallAlert, b: WallAlert): number {
  return (
    levels.indexOf(a.level) - levels.indexOf(b.level) ||
    Number(a.taken !== null) - Number(b.taken !== null) ||
    a.sinceMs - b.sinceMs
  )
}

function levelOf(kind: AlertKind): AlertLevel {
  switch (kind) {
    case 'help':
    case 'fluids':
    case 'short':
      return 'now'
    case 'noDroppings':
    case 'fedTwice':
    case 'lookAgain':
      return 'soon'
    default:
      return unreachable(kind)
  }
}

type About = Pick<WallAlert, 'nest' | 'label' | 'incubatorLabel'>
type Rest = Pick<WallAlert, 'kind' | 'sinceMs'> & Partial<WallAlert>

const alert = (about: About, rest: Rest): WallAlert => ({
  key: `${rest.kind} ${about.nest ?? ''}`,
  level: levelOf(rest.kind),
  waits: null,
  taken: null,
  birds: 0,
  ...about,
  ...rest,
})

function called(board: Board, names: PublicNames, request: Request): WallAlert {
  const { id, kind, raisedAtMs: sinceMs, taken, by } = request
  const nest = request.nest === null ? undefined : board.nests[request.nest]
  const incubator = nest ? board.incubators[nest.incubator] : undefined
  const about = {
    nest: request.nest,
    label: nest?.label ?? null,
    incubatorLabel: incubator?.label ?? null,
  }
  return alert(about, {
    key: id,
    kind,
    sinceMs,
    waits: nameOf(board, names, by),
    taken: taken ? { name: nameOf(board, names, taken.person) } : null,
  })
}

function ofNest(nest: WallNest, { short, doubts }: Nest): readonly WallAlert[] {
  const { state } = nest
  const twice = doubts.find((doubt) => doubt.kind === 'twice')
  return [
    ...(short
      ? [alert(nest, { kind: 'short', sinceMs: short.sinceMs, birds: short.missing })]
      : []),
    ...(nest.isFedTwice && twice
      ? [alert(nest, { kind: 'fedTwice', sinceMs: twice.raisedAtMs })]
      : []),
    ...(state.type === 'held' && state.lookAgain === 'overdue'
      ? [alert(nest, { kind: 'lookAgain', sinceMs: state.lookAgainAtMs })]
      : []),
  ]
}

/** Everything open, in the order the band says it. */
export function alertsOf(
  board: Board,
  names: PublicNames,
  nests: readonly WallNest[],
): readonly WallAlert[] {
  return [
    ...openRequests(board).map((request) => called(board, names, request)),
    ...nests.flatMap((nest) => {
      const known = board.nests[nest.nest]
      return known ? ofNest(nest, known) : []
    }),
  ].sort(inAlertOrder)
}
