// Everything beside the feeding: answering what one is asked, coming when one is called, and what falls
// to those who lead or are signed off for fluids. Each chore takes one step and says whether it did.

import { type BirdId, minuteMs, type PersonId, secondMs } from '../../shared/base/values.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import { hasRight } from '../../shared/board/rights.ts'
import type { Bird, Board } from '../../shared/board/state.ts'
import { isFree, offeredTo } from '../../shared/rules/offers.ts'
import { requestTakenBy } from '../../shared/rules/openRequests.ts'
import { askedOf } from '../../shared/rules/requests.ts'
import { doubtQuestions } from '../../shared/views/doubtQuestions.ts'
import type { AtWork } from './atWork.ts'

type Chore = (feeder: AtWork, board: Board) => Promise<boolean>

/** The doubts this person is asked about, answered by what went into the birds. */
const answerDoubt: Chore = async (feeder, board) => {
  const question = doubtQuestions(board, feeder.person)[0]
  if (!question) return false
  // Long enough, at times, that somebody else is warned before the answer comes.
  await feeder.wait(feeder.draw.between(20 * secondMs, 100 * secondMs))
  const noted = feeder.remembered(question.no)
  const fed = question.birds.filter((bird) => {
    if (noted) return noted.some((one) => one.bird === bird && one.outcome !== 'refused')
    return feeder.crops.isFedSince(bird, question.aboutAtMs)
  })
  const about = { nest: question.nest, claimNo: question.no }
  await feeder.handset.report({
    ...{ type: 'SayWhatHappened', v: 1, ...about },
    said: saidOf(fed, question.birds.length),
  })
  await feeder.wait(10 * secondMs)
  return true
}

function saidOf(fed: readonly BirdId[], all: number): CommandOf<'SayWhatHappened'>['said'] {
  if (fed.length === all) return { type: 'all' }
  return fed.length === 0 ? { type: 'none' } : { type: 'some', birds: [...fed] }
}

const takeOffer: Chore = async (feeder, board) => {
  const nest = offeredTo(board, feeder.person)
  if (!nest || nest.doubts.length > 0) return false
  await feeder.wait(feeder.draw.between(3 * secondMs, 20 * secondMs))
  if (feeder.draw.oneIn(8)) {
    return feeder.handset.ask({ type: 'DeclineOffer', v: 1, nest: nest.id })
  }
  return feeder.handset.ask({ type: 'ClaimNest', v: 1, nest: nest.id })
}

const cameWords = ['Warmed, took fluids, bright again.', 'Looked at it: crop empty, gapes now.']

const comeWhenCalled: Chore = async (feeder, board) => {
  const taken = requestTakenBy(board, feeder.person)
  if (!taken) {
    const open = Object.values(board.requests).find(
      (one) => one.taken === null && askedOf(board, one).includes(feeder.person),
    )
    if (!open) return false
    await feeder.wait(feeder.draw.between(5 * secondMs, 30 * secondMs))
    return feeder.handset.ask({ type: 'TakeRequest', v: 1, request: open.id })
  }
  await feeder.wait(feeder.draw.between(2 * minuteMs, 5 * minuteMs))
  const note = cameWords[Math.floor(feeder.draw.between(0, cameWords.length))] ?? ''
  return feeder.handset.ask({
    ...{ type: 'ResolveRequest', v: 1, request: taken.id },
    private: { note },
  })
}

/** One person sees to what anybody could: the first of those with empty hands. */
const isFirstFree = (board: Board, person: PersonId): boolean =>
  Object.values(board.people).find(({ id }) => isFree(board, id))?.id === person

/** An arrival whose look is due: its droppings have come by the second look (invented). */
const lookAtArrival: Chore = async (feeder, board) => {
  const isDue = (bird: Bird) =>
    bird.standing.type === 'settling' && bird.standing.lookDueAtMs <= feeder.nowMs()
  const birds = Object.values(board.birds).filter(isDue)
  const [first] = birds
  if (!first || !isFirstFree(board, feeder.person)) return false
  for (const bird of birds.filter((one) => one.nest === first.nest)) {
    await feeder.wait(20 * secondMs)
    const droppings = bird.lastSeen ? 'seen' : 'none'
    await feeder.handset.report({ type: 'BirdSeen', v: 1, bird: bird.id, signs: [], droppings })
  }
  return true
}

const readNotice: Chore = async (feeder, board) => {
  const notice = board.notices[0]
  const person = board.people[feeder.person]
  if (!notice || !person || !hasRight(person, 'lead')) return false
  await feeder.wait(feeder.draw.between(30 * secondMs, 90 * secondMs))
  return feeder.handset.ask({ type: 'Acknowledge', v: 1, notice: notice.no })
}

/** A hold whose look-again has come is lifted by whoever leads. */
const liftHold: Chore = async (feeder, board) => {
  const person = board.people[feeder.person]
  if (!person || !hasRight(person, 'lead')) return false
  const isDue = ({ hold }: Pick<Bird, 'hold'>) => hold && hold.lookAgainAtMs <= feeder.nowMs()
  const bird = Object.values(board.birds).find(isDue)
  const nest = bird?.nest ?? Object.values(board.nests).find(isDue)?.id
  if (!nest) return false
  await feeder.wait(40 * secondMs)
  const whyLifted = 'crop empty again'
  const about = bird ? { nest, bird: bird.id, whyLifted } : { nest, whyLifted }
  return feeder.handset.ask({ type: 'LiftHold', v: 1, ...about })
}

const chores: readonly Chore[] = [
  answerDoubt,
  comeWhenCalled,
  takeOffer,
  lookAtArrival,
  readNotice,
  liftHold,
]

/** The first chore there is for this person; false where there is none. */
export async function doChore(feeder: AtWork): Promise<boolean> {
  const seen = feeder.handset.see()
  if (!seen || !feeder.handset.canAsk) return false
  for (const chore of chores) if (await chore(feeder, seen.board)) return true
  return false
}
