// Somebody is asked to take a nest that is late: one person at a time, each with 45 seconds, and after
// three of them the lead is told. Whom the board asks, when a question stops standing, and when the
// lead hears of it. Claims themselves are claiming.ts's.

import type { InstantMs, NestId, PersonId } from '../base/values.ts'
import { birdsOf, withNest, withPerson } from '../board/change.ts'
import type { CommandOf } from '../board/commands.ts'
import {
  leadFromLateMs,
  type NoticeReason,
  offerFromLateMs,
  offerMs,
  offersMax,
  silentMs,
  type Technique,
} from '../board/constants.ts'
import type { EventOf } from '../board/events.ts'
import type { Board, Nest, Offer, Person } from '../board/state.ts'
import type { Context } from './context.ts'
import {
  claimOf,
  type Decision,
  type Due,
  type Events,
  happened,
  heldBy,
  nothingNew,
  refuse,
} from './decision.ts'
import { warnsFromMs } from './doubts.ts'
import { birdDueAtMs, mayFeed, planOf, readyBirds } from './due.ts'
import { afterOpenMs, today } from './feedingHours.ts'
import { isMentorAway } from './mentors.ts'
import { leadTold } from './notices.ts'
import { whyNotClaim } from './whyNotClaim.ts'

/** The nest this person is asked to take; null when none. */
export const offeredTo = (board: Board, person: PersonId): Nest | null =>
  Object.values(board.nests).find((nest) => nest.offer?.person === person) ?? null

/** On shift and here, with nothing in hand, nothing asked of them and nobody waiting for them. */
export function isFree(board: Board, person: PersonId): boolean {
  const actor = board.people[person]
  if (actor?.shift !== 'on' || actor.isRemoved || actor.unreachableSinceMs !== null) return false
  if (isMentorAway(board, person) || claimOf(board, person)) return false
  return !Object.values(board.requests).some((request) => request.taken?.person === person)
}

/** Whether to count on this person: not after a quarter of an hour of silence and an offer unanswered. */
export const isHands = (person: Person, nowMs: InstantMs): boolean =>
  person.unanswered === 0 || nowMs - person.actedAtMs < silentMs

/** Hands that answer before those that do not, leads last, then whoever has been idle longest. */
function byTurn(a: Person, b: Person): number {
  const leads = (person: Person) => Number(person.role === 'lead' || person.role === 'permitHolder')
  return (
    a.unanswered - b.unanswered ||
    leads(a) - leads(b) ||
    a.actedAtMs - b.actedAtMs ||
    (a.id < b.id ? -1 : 1)
  )
}

const made = (
  nest: Nest,
  offer: { person: PersonId; by: PersonId | null },
  nowMs: InstantMs,
): EventOf<'OfferMade'> => ({
  ...{ type: 'OfferMade', v: 1, nest: nest.id, ...offer },
  ...{ atMs: nowMs, endsAtMs: nowMs + offerMs },
})

const ended = (
  nest: Nest,
  offer: Offer,
  how: EventOf<'OfferEnded'>['how'],
  atMs: InstantMs,
): EventOf<'OfferEnded'> => {
  return { type: 'OfferEnded', v: 1, nest: nest.id, person: offer.person, how, atMs }
}

/** A claim answers the offer of its nest. What was asked of this person elsewhere ends by itself. */
export const offerAnswered = (nest: Nest, person: PersonId, nowMs: InstantMs): Events =>
  nest.offer
    ? [ended(nest, nest.offer, nest.offer.person === person ? 'taken' : 'over', nowMs)]
    : []

export function decideDeclineOffer(
  board: Board,
  command: CommandOf<'DeclineOffer'>,
  context: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  if (nest.offer?.person !== context.by) return nothingNew
  return happened(ended(nest, nest.offer, 'declined', context.nowMs))
}

/** A lead asks one person; whoever the board was asking there is let off. */
export function decideOfferNest(
  board: Board,
  command: CommandOf<'OfferNest'>,
  { by, nowMs }: Context,
): Decision {
  const nest = board.nests[command.nest]
  if (!nest) return refuse({ code: 'NestUnknown' })
  if (nest.offer?.person === command.person) return nothingNew
  const why = whyNotClaim(board, command.person, nest.id, nowMs)
  if (why && why.code !== 'InDoubt') return refuse(why)
  const isAsked = offeredTo(board, command.person) !== null
  if (isAsked || heldBy(nest) || isOwnerAsked(board, nest, nowMs)) {
    return refuse({ code: 'NotFree', person: command.person })
  }
  if (!isFree(board, command.person)) return refuse({ code: 'NotFree', person: command.person })
  return happened(
    ...(nest.offer ? [ended(nest, nest.offer, 'over', nowMs)] : []),
    made(nest, { person: command.person, by }, nowMs),
  )
}

const isOwnerAsked = (board: Board, nest: Nest, nowMs: InstantMs): boolean =>
  nest.doubts.some((doubt) => warnsFromMs(board, doubt) > nowMs)

/** Whether a question still makes sense: the nest waits, and this person could take it as when asked. */
function stands(board: Board, nest: Nest, offer: Offer): boolean {
  if (heldBy(nest) || nest.hold || board.room.isClosed) return false
  if (offer.madeAtMs < board.room.openedAtMs) return false
  const isDoubted = isOwnerAsked(board, nest, offer.madeAtMs)
  const isMine = nest.doubts.some((doubt) => doubt.owner === offer.person)
  if (isDoubted || isMine || !isFree(board, offer.person)) return false
  return readyBirds(board, nest.id, offer.person, offer.madeAtMs).length > 0
}

/** Ends a question that no longer makes sense at once, and one nobody answered when its time is over. */
export function offersOver(board: Board): readonly Due[] {
  return Object.values(board.nests).flatMap((nest) => {
    const { offer } = nest
    if (!offer) return []
    const how = stands(board, nest, offer) ? 'unanswered' : 'over'
    const atMs = how === 'over' ? offer.madeAtMs : offer.endsAtMs
    return [{ atMs, events: (nowMs: InstantMs) => [ended(nest, offer, how, nowMs)] }]
  })
}

type LateBird = { readonly technique: Technique; readonly dueAtMs: InstantMs }

/** The birds of a nest that wait for somebody, and since when; none where nobody is to be asked. */
function lateBirds(board: Board, nest: Nest): readonly LateBird[] {
  if (heldBy(nest) || nest.hold || board.room.isClosed) return []
  return birdsOf(board, nest.id).flatMap((bird) => {
    if (!mayFeed(board, bird)) return []
    const dueAtMs = birdDueAtMs(board, bird)
    const technique = planOf(board, bird)?.technique
    const isToday = dueAtMs !== null && dueAtMs < today(board).closesAtMs
    return isToday && technique ? [{ technique, dueAtMs }] : []
  })
}

/** The instant at which the first of these birds has been late so long, not before its doubts warn. */
function lateAtMs(
  board: Board,
  nest: Nest,
  birds: readonly LateBird[],
  lateMs: number,
): InstantMs | null {
  if (birds.length === 0) return null
  const first = Math.min(...birds.map((bird) => bird.dueAtMs))
  const atMs = afterOpenMs(board, first, lateMs)
  if (atMs === null) return null
  return Math.max(atMs, ...nest.doubts.map((doubt) => warnsFromMs(board, doubt)))
}

/** The next person to be asked for each late nest, and from when. */
export function offersDue(board: Board): readonly Due[] {
  const asked = new Set(Object.values(board.nests).flatMap((nest) => nest.offer?.person ?? []))
  const free = Object.values(board.people)
    .filter((person) => !asked.has(person.id) && isFree(board, person.id))
    .sort(byTurn)
  if (free.length === 0) return []
  return Object.values(board.nests).flatMap((nest) => {
    if (nest.offer || nest.tried.length >= offersMax) return []
    const birds = lateBirds(board, nest)
    if (birds.length === 0) return []
    let first: { person: PersonId; atMs: InstantMs } | null = null
    for (const person of free) {
      const isOut = nest.tried.includes(person.id) || nest.doubts.some((d) => d.owner === person.id)
      const own = birds.filter((bird) => person.signOffs.includes(bird.technique))
      const atMs = isOut ? null : lateAtMs(board, nest, own, offerFromLateMs)
      if (atMs !== null && (first === null || atMs < first.atMs))
        first = { person: person.id, atMs }
    }
    if (first === null) return []
    const { person, atMs } = first
    return [{ atMs, events: (nowMs: InstantMs) => [made(nest, { person, by: null }, nowMs)] }]
  })
}

/** When the lead is told of each late nest, once for each lateness; nobody is told of an empty room. */
export function leadsToldOfLate(board: Board): readonly Due[] {
  const here = Object.values(board.people).filter(
    (person) => person.shift !== 'off' && !person.isRemoved,
  )
  if (here.length === 0) return []
  const canAny = (technique: Technique) =>
    here.some((person) => person.signOffs.includes(technique))
  return Object.values(board.nests).flatMap((nest) => {
    if (nest.isLeadTold) return []
    const birds = lateBirds(board, nest)
    const nobodys = birds.filter((bird) => !canAny(bird.technique))
    const told = (why: NoticeReason, of: readonly LateBird[], lateMs: number): readonly Due[] => {
      const atMs = lateAtMs(board, nest, of, lateMs)
      const events = (nowMs: InstantMs) => leadTold(board, { why, nest: nest.id }, nowMs)
      return atMs === null ? [] : [{ atMs, events }]
    }
    const isAskedOut = nest.offer === null && nest.tried.length >= offersMax
    return [
      ...told('nobodySignedOff', nobodys, offerFromLateMs),
      ...(isAskedOut ? told('threeAsked', birds, offerFromLateMs) : []),
      ...told('lateTen', birds, leadFromLateMs),
    ]
  })
}

export const evolveOfferMade = (board: Board, event: EventOf<'OfferMade'>): Board =>
  withNest(board, event.nest, (nest) => ({
    ...nest,
    offer: {
      ...{ person: event.person, by: event.by },
      ...{ madeAtMs: event.atMs, endsAtMs: event.endsAtMs },
    },
  }))

export function evolveOfferEnded(board: Board, event: EventOf<'OfferEnded'>): Board {
  const isRefused = event.how === 'declined' || event.how === 'unanswered'
  const freed = withNest(board, event.nest, (nest) => ({
    ...nest,
    offer: null,
    tried: isRefused ? [...new Set([...nest.tried, event.person])] : nest.tried,
  }))
  if (event.how !== 'unanswered') return freed
  return withPerson(freed, event.person, (person) => ({
    ...person,
    unanswered: person.unanswered + 1,
  }))
}

/** A nest's lateness begins anew: whom the board asked and that it told the lead is over. */
export const withFreshLateness = (board: Board, id: NestId): Board => {
  const nest = board.nests[id]
  if (!nest || (nest.tried.length === 0 && !nest.isLeadTold)) return board
  const notices = board.notices.filter(({ why, nest: of }) => of !== id || !isOfLateness(why))
  return withNest({ ...board, notices }, id, (now) => ({ ...now, tried: [], isLeadTold: false }))
}

/** Whether the lead is told this of a nest that waits: old news as soon as it no longer does. */
export const isOfLateness = (why: NoticeReason): boolean =>
  why === 'nobodySignedOff' || why === 'threeAsked' || why === 'lateTen'

/** A person who becomes free again may be asked of every nest again. */
export function withFreshPerson(board: Board, person: PersonId): Board {
  return Object.values(board.nests).reduce(
    (next, { id, tried }) =>
      tried.includes(person)
        ? withNest(next, id, (nest) => ({
            ...nest,
            tried: nest.tried.filter((other) => other !== person),
          }))
        : next,
    board,
  )
}
