// What simulated people do when they are asked or called, and what those who lead do beside feeding:
// take or decline an offer, come when somebody trained is called, read notices, move and mend.

import { minuteMs } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { Board, Request } from '../../shared/board/state.ts'
import { isMentorAway } from '../../shared/rules/mentors.ts'
import { isFree, offeredTo } from '../../shared/rules/offers.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import type { Chance } from './chance.ts'
import type { Sight, Worker } from './worker.ts'

const share = {
  takesOffer: 0.6,
  declines: 0.15,
  takesCall: 0.3,
  cannot: 0.1,
  resolves: 0.2,
} as const

/** Answers whatever is asked of this person; false where nothing is, or they do not look up. */
export function answerCalls(person: Worker, sight: Sight): boolean {
  const { chance } = person.world
  return [finishCall, takeCall, answerOffer].some((call) => call(person, sight, chance))
}

/** A finger that comes down just after somebody else's. */
export function takeTaken(person: Worker, sight: Sight, chance: Chance): boolean {
  const taken = open(sight.board).filter((one) => one.taken && one.taken.person !== person.id)
  if (taken.length === 0) return false
  void person.ask(sight, { type: 'TakeRequest', v: 1, request: chance.oneOf(taken).id })
  return true
}

/** A trainee who does not wait for anybody. */
export function claimAlone(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!isMentorAway(sight.board, person.id)) return false
  const { id: nest } = chance.oneOf(Object.values(sight.board.nests))
  void person.ask(sight, { type: 'ClaimNest', v: 1, nest, sureEarly: true })
  return true
}

const open = (board: Board): readonly Request[] => Object.values(board.requests)

function finishCall(person: Worker, sight: Sight, chance: Chance): boolean {
  const mine = open(sight.board).find((one) => one.taken?.person === person.id)
  if (mine === undefined || !chance.happens(share.resolves)) return false
  const note = { private: { note: `seen to, ${sight.nowMs}` } }
  const { id: request } = mine
  if (chance.happens(share.cannot)) {
    void person.ask(sight, { type: 'DeclineRequest', v: 1, request })
  } else void person.ask(sight, { type: 'ResolveRequest', v: 1, request, ...note })
  return true
}

/** Two people take the same call at times; the board gives it to one. */
function takeCall(person: Worker, sight: Sight, chance: Chance): boolean {
  const call = open(sight.board).find(
    (one) => one.taken === null && askedOf(sight.board, one).includes(person.id),
  )
  if (call === undefined || !chance.happens(share.takesCall)) return false
  const type = chance.happens(share.cannot) ? ('DeclineRequest' as const) : ('TakeRequest' as const)
  void person.ask(sight, { type, v: 1, request: call.id })
  return true
}

function answerOffer(person: Worker, sight: Sight, chance: Chance): boolean {
  const nest = offeredTo(sight.board, person.id)
  if (nest === null) return false
  if (chance.happens(share.takesOffer)) {
    const seenDoubts = nest.doubts.map(({ no }) => no).slice(0, 4)
    const ask = { type: 'ClaimNest', v: 1, nest: nest.id } as const
    void person.ask(sight, seenDoubts.length > 0 ? { ...ask, seenDoubts } : ask)
    return true
  }
  if (!chance.happens(share.declines)) return false
  void person.ask(sight, { type: 'DeclineOffer', v: 1, nest: nest.id })
  return true
}

export function callHelp(person: Worker, { board }: Sight, chance: Chance): boolean {
  const { id: nest } = chance.oneOf(Object.values(board.nests))
  const note = { private: { note: 'needs a second pair of eyes' } }
  const where = chance.happens(0.8) ? { nest } : {}
  person.report({ type: 'CallHelp', v: 1, ...where, ...(chance.happens(0.3) ? note : {}) })
  return true
}

export function findBird(person: Worker, { board }: Sight): boolean {
  const short = Object.values(board.nests).find((nest) => nest.short !== null)
  if (short === undefined) return false
  person.report({ type: 'BirdFound', v: 1, nest: short.id })
  return true
}

const leads = ({ me }: Sight): boolean => me.role === 'lead' || me.role === 'permitHolder'

export function readNotice(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!leads(sight) || sight.board.notices.length === 0) return false
  const { no: notice } = chance.oneOf(sight.board.notices)
  void person.ask(sight, { type: 'Acknowledge', v: 1, notice })
  return true
}

/** A lead asks somebody, not always somebody who can. */
export function sendSomebody(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!leads(sight)) return false
  const people = Object.values(sight.board.people)
  const free = people.filter(({ id }) => isFree(sight.board, id))
  const { id } = chance.oneOf(free.length > 0 && chance.happens(0.7) ? free : people)
  const { id: nest } = chance.oneOf(Object.values(sight.board.nests))
  void person.ask(sight, { type: 'OfferNest', v: 1, nest, person: id })
  return true
}

export function moveNest(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!leads(sight)) return false
  const { id: nest } = chance.oneOf(Object.values(sight.board.nests))
  const { id: incubator } = chance.oneOf(Object.values(sight.board.incubators))
  void person.ask(sight, { type: 'MoveNest', v: 1, nest, incubator })
  return true
}

/** Now and then a bird goes to another brood, its feeds and its doubts with it. */
export function moveBird(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!leads(sight)) return false
  const nests = Object.values(sight.board.nests)
  const crowded = nests.filter(({ id }) => birdsOf(sight.board, id).length > 1)
  const small = nests.filter(({ id }) => birdsOf(sight.board, id).length < 5)
  if (crowded.length === 0 || small.length === 0) return false
  const { id: bird } = chance.oneOf(birdsOf(sight.board, chance.oneOf(crowded).id))
  const { id: nest } = chance.oneOf(small)
  void person.ask(sight, { type: 'MoveBird', v: 1, bird, nest, isQuarantineDecided: true })
  return true
}

export function nameMentor(person: Worker, sight: Sight, chance: Chance): boolean {
  if (!leads(sight)) return false
  const people = Object.values(sight.board.people)
  const trainee = people.find(({ role }) => role === 'trainee')
  const mentor = people.find(({ signOffs }) => signOffs.includes('mentor'))
  if (trainee === undefined || mentor === undefined) return false
  const named = chance.happens(0.6) ? mentor.id : null
  void person.ask(sight, { type: 'SetMentor', v: 1, person: trainee.id, mentor: named })
  return true
}

/** "That was F, not E", some minutes later, about a round this person has recorded. */
export function mendNest(person: Worker, sight: Sight, chance: Chance): boolean {
  const nests = Object.values(sight.board.nests)
  const mine = nests.flatMap((nest) =>
    nest.rounds
      .filter((round) => round.person === person.id && !round.isTakenBack)
      .filter((round) => sight.nowMs - round.recordedAtMs < 30 * minuteMs)
      .map((round) => ({ nest: nest.id, claimNo: round.no })),
  )
  if (mine.length === 0) return false
  const { id: toNest } = chance.oneOf(nests)
  const about = { answers: [], reason: 'the nest beside it', toNest }
  person.report({ type: 'CorrectFeed', v: 1, ...chance.oneOf(mine), ...about })
  return true
}
