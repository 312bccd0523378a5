// What a hurried feeder does next, drawn from chance and from the board on their screen: feeds, mostly,
// and everything that goes wrong around it. Deliberately not careful: feeds without a claim, answers
// for a claim long over, takes records back, and wants the nest that somebody else has.

import type { NestId, PersonId } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { AskType, CommandOf, ReportType } from '../../shared/board/commands.ts'
import { outcomes } from '../../shared/board/constants.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { Bird, Board, Held, Nest } from '../../shared/board/state.ts'
import type { Choose } from '../support/fakeMedium.ts'

export type Deed = CommandOf<AskType> | CommandOf<ReportType>

export type FeederEyes = {
  readonly board: Board
  readonly person: PersonId
  readonly nowMs: number
  readonly choose: Choose
  /** A mass in milligrams that nobody has noted before and nobody will again. */
  readonly freshMassMg: () => number
}

/** Null where there is nothing on the board this could be done to. */
type Way = (eyes: FeederEyes) => Deed | null

export function nextDeed(eyes: FeederEyes): Deed | null {
  const claim = claimOf(eyes)
  const ways = claim === null ? freeWays : heldWays(claim)
  return drawn(eyes.choose, ways)?.(eyes) ?? null
}

type Claim = { readonly nest: Nest; readonly held: Held }

function claimOf({ board, person }: FeederEyes): Claim | null {
  for (const nest of Object.values(board.nests)) {
    const { hands } = nest
    if (hands.type === 'held' && hands.person === person) return { nest, held: hands }
  }
  return null
}

const oneOf = <T>(choose: Choose, list: readonly T[]): T | undefined =>
  list.length === 0 ? undefined : list[choose(list.length)]

/** One of them, each as likely as its weight says. */
function drawn(choose: Choose, ways: readonly (readonly [weight: number, way: Way])[]) {
  let left = choose(ways.reduce((sum, [weight]) => sum + weight, 0))
  return ways.find(([weight]) => {
    left -= weight
    return left < 0
  })?.[1]
}

const anyNest = ({ board, choose }: FeederEyes) => oneOf(choose, Object.values(board.nests))
const anyBird = ({ board, choose }: FeederEyes) => oneOf(choose, Object.values(board.birds))

const answersFor = (choose: Choose, birds: readonly Bird['id'][]): Answer[] =>
  birds.map((bird) => ({
    bird,
    outcome: oneOf(choose, outcomes) ?? 'ate',
    given: {
      amount: { unit: 'uL', n: 100 + choose(400) },
      is: choose(2) === 0 ? 'planned' : 'measured',
    },
  }))

const weigh: Way = (eyes) => {
  const bird = anyBird(eyes)
  return bird ? { type: 'Weighed', v: 1, bird: bird.id, massMg: eyes.freshMassMg() } : null
}

/** The nest in hand, one step further. */
function heldWays({ nest, held }: Claim): readonly (readonly [number, Way])[] {
  const about = { v: 1, nest: nest.id, claimNo: held.claimNo } as const
  const left = held.birds.filter((bird) => !held.answered.includes(bird))
  const answer = (birds: typeof left, choose: Choose): Deed | null =>
    birds.length === 0
      ? null
      : { type: 'AnswerBirds', ...about, answers: answersFor(choose, birds) }
  return [
    [3, () => ({ type: 'StartFeed', ...about })],
    [4, ({ choose }) => answer(left.slice(0, 1 + choose(2)), choose)],
    [5, ({ choose }) => answer(left, choose)],
    [1, () => ({ type: 'CalledAway', ...about })],
    [1, () => ({ type: 'GiveBack', ...about })],
    [1, () => ({ type: 'MoreTime', ...about })],
    [2, weigh],
  ]
}

const claimAny: Way = (eyes) => {
  const nest = anyNest(eyes)
  if (nest === undefined) return null
  const birds = birdsOf(eyes.board, nest.id)
  const lastFeed = birds.flatMap((bird) => bird.feeds.at(-1)?.no ?? []).at(-1)
  // Nobody waits for hours here: without "one more feed" most nests would never be ready.
  const extra = {
    birds: birds.map((bird) => bird.id),
    reason: 'still begging',
    afterFeed: lastFeed ?? 1,
  }
  return {
    type: 'ClaimNest',
    v: 1,
    nest: nest.id,
    sureEarly: true,
    ...(birds.length > 0 && lastFeed !== undefined ? { extra } : {}),
    ...(eyes.choose(4) > 0 ? { seenDoubts: nest.doubts.map((doubt) => doubt.no) } : {}),
  }
}

const sayWhatHappened: Way = ({ board, person, choose }) => {
  const mine = Object.values(board.nests).flatMap((nest) =>
    nest.doubts
      .filter((doubt) => doubt.owner === person)
      .map((doubt) => ({ nest: nest.id, doubt })),
  )
  const one = oneOf(choose, mine)
  if (one === undefined) return null
  const { nest, doubt } = one
  const some = { type: 'some', birds: doubt.birds.slice(0, 1) } as const
  const said = oneOf(choose, [{ type: 'all' }, some, { type: 'none' }] as const) ?? some
  return {
    type: 'SayWhatHappened',
    v: 1,
    nest,
    claimNo: doubt.no,
    said: said.type === 'some' ? { ...said, birds: [...said.birds] } : said,
  }
}

const look: Way = ({ board, choose }) => {
  const doubtful = Object.values(board.nests).filter((nest) => nest.doubts.length > 0)
  const nest = oneOf(choose, doubtful)
  const birds = nest?.doubts[0]?.birds
  if (nest === undefined || birds === undefined) return null
  const crops = ['full', 'empty', 'cannotTell'] as const
  const looks = birds.map((bird) => ({ bird, crop: oneOf(choose, crops) ?? 'cannotTell' }))
  return { type: 'Looked', v: 1, nest: nest.id, looks }
}

/** A nest and one of its latest rounds, of whomever it was. */
function anyRound(eyes: FeederEyes): { readonly nest: NestId; readonly no: number } | null {
  const nest = anyNest(eyes)
  const round = nest && oneOf(eyes.choose, nest.rounds)
  return nest && round ? { nest: nest.id, no: round.no } : null
}

const takeBack: Way = (eyes) => {
  const round = anyRound(eyes)
  const wasFed = oneOf(eyes.choose, ['yes', 'no', 'unknown'] as const) ?? 'unknown'
  return round && { type: 'TakeBackFeed', v: 1, nest: round.nest, claimNo: round.no, wasFed }
}

const correct: Way = (eyes) => {
  const round = anyRound(eyes)
  const birds = round ? birdsOf(eyes.board, round.nest).map((bird) => bird.id) : []
  if (round === null || birds.length === 0) return null
  const answers = answersFor(eyes.choose, birds.slice(0, 1))
  const about = { nest: round.nest, claimNo: round.no, reason: 'slip of the finger' }
  return { type: 'CorrectFeed', v: 1, ...about, answers }
}

const answerUnclaimed: Way = (eyes) => {
  const nest = anyNest(eyes)
  const birds = nest ? birdsOf(eyes.board, nest.id).map((bird) => bird.id) : []
  if (nest === undefined || birds.length === 0) return null
  const claimNo = nest.lastEnd?.claimNo
  return {
    type: 'AnswerBirds',
    v: 1,
    nest: nest.id,
    ...(claimNo !== undefined && eyes.choose(2) === 0 ? { claimNo } : {}),
    answers: answersFor(eyes.choose, birds),
  }
}

const startUnclaimed: Way = (eyes) => {
  const nest = anyNest(eyes)
  return nest ? { type: 'StartFeed', v: 1, nest: nest.id } : null
}

const readIncubator: Way = ({ board, choose }) => {
  const incubator = oneOf(choose, Object.values(board.incubators))
  const tempDeciC = 300 + choose(80)
  return incubator ? { type: 'IncubatorRead', v: 1, incubator: incubator.id, tempDeciC } : null
}

const seeBird: Way = (eyes) => {
  const bird = anyBird(eyes)
  const note = `Seen with ${1 + eyes.choose(3)} droppings.`
  return bird
    ? { type: 'BirdSeen', v: 1, bird: bird.id, signs: [], droppings: 'seen', private: { note } }
    : null
}

const giveFluids: Way = (eyes) => {
  const bird = anyBird(eyes)
  const given = { unit: 'uL', n: 50 + eyes.choose(200) } as const
  const how = { fluid: 'saline', route: 'byMouth', isWarmed: true } as const
  return bird ? { type: 'FluidsGiven', v: 1, bird: bird.id, given, ...how } : null
}

const holdOrLift: Way = (eyes) => {
  const bird = anyBird(eyes)
  if (bird === undefined) return null
  const held = Object.values(eyes.board.birds).find((one) => one.hold?.by === eyes.person)
  if (held !== undefined) {
    return { type: 'LiftHold', v: 1, nest: held.nest, bird: held.id, whyLifted: 'warm again' }
  }
  const lookAgainAtMs = eyes.nowMs + 10 * 60_000
  return { type: 'HoldBird', v: 1, bird: bird.id, reason: 'cool to touch', lookAgainAtMs }
}

const freeWays: readonly (readonly [number, Way])[] = [
  [12, claimAny],
  [4, weigh],
  [3, sayWhatHappened],
  [2, look],
  [2, takeBack],
  [1, correct],
  [2, answerUnclaimed],
  [1, startUnclaimed],
  [1, readIncubator],
  [4, seeBird],
  [1, giveFluids],
  [1, holdOrLift],
]
