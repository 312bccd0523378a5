// People at work: each takes the nest the board would show them, feeds it and records it. Who had which
// nest is therefore nobody's invention but the rules'. Figures of how long things take and how often a
// bird refuses are invented for the demo and say nothing about the trade.

import { hashText } from '../shared/base/hash.ts'
import type { BirdId, LengthMs, NestId } from '../shared/base/values.ts'
import { birdsOf } from '../shared/board/change.ts'
import type { Technique } from '../shared/board/constants.ts'
import type { Answer } from '../shared/board/parts.ts'
import type { Bird, Board, Held } from '../shared/board/state.ts'
import { nextNest } from '../shared/plan/nextNest.ts'
import { planOf } from '../shared/rules/due.ts'
import { whyNotClaim } from '../shared/rules/whyNotClaim.ts'
import type { Worker } from './demoRoom.ts'
import { minutes } from './ids.ts'
import type { Rehearsal } from './rehearsal.ts'

const setUpMin = 0.5
const betweenNestsMin = 0.75
const lookAgainMin = 1
const perBirdMin: Readonly<Record<Technique, number>> = {
  gapeSyringe: 0.8,
  insectTweezers: 0.8,
  cropTube: 2,
  swiftHand: 1.5,
  hummingbird: 1,
  assisted: 2,
}

/** Something a person does at a moment, and what they do after it. */
export type Turn = { readonly afterMs: LengthMs; readonly act: () => readonly Turn[] }

/** The worker looks for a nest, takes the one they are shown, or looks again a minute later. */
export function lookForNest(rehearsal: Rehearsal, worker: Worker, afterMs: LengthMs): Turn {
  const act = (): readonly Turn[] => {
    const board = rehearsal.boardAt(afterMs)
    const nowMs = rehearsal.atMs(afterMs)
    const { person } = worker
    const next = nextNest(board, person, nowMs)
    if (afterMs > minutes(worker.untilMin)) return []
    if (next === null || whyNotClaim(board, person, next.nest, nowMs) !== null) {
      return [lookForNest(rehearsal, worker, afterMs + minutes(lookAgainMin))]
    }
    const recordedMs = afterMs + visitMs(board, next.birds)
    if (recordedMs > minutes(worker.untilMin)) return []
    rehearsal.take({
      afterMs,
      by: person,
      command: { type: 'ClaimNest', v: 1, nest: next.nest },
    })
    return [record(rehearsal, worker, { nest: next.nest, afterMs: recordedMs })]
  }
  return { afterMs, act }
}

function visitMs(board: Board, birds: readonly BirdId[]): LengthMs {
  const feeding = birds.map((id) => {
    const bird = board.birds[id]
    const plan = bird && planOf(board, bird)
    return plan ? perBirdMin[plan.technique] : 0
  })
  return minutes(feeding.reduce((sum, min) => sum + min, setUpMin))
}

/** Somebody may have ended the claim meanwhile; then there is nothing left to say. */
function record(
  rehearsal: Rehearsal,
  worker: Worker,
  { nest, afterMs }: { readonly nest: NestId; readonly afterMs: LengthMs },
): Turn {
  const act = (): readonly Turn[] => {
    const board = rehearsal.boardAt(afterMs)
    const hands = board.nests[nest]?.hands
    if (hands?.type === 'held' && hands.person === worker.person && hands.birds.length > 0) {
      rehearsal.take({
        afterMs,
        by: worker.person,
        command: {
          ...{ type: 'AnswerBirds', v: 1, nest, claimNo: hands.claimNo },
          answers: answersOf(board, hands),
          ...{ back: birdsOf(board, nest).length, door: 'shut' },
        },
      })
    }
    return [lookForNest(rehearsal, worker, afterMs + minutes(betweenNestsMin))]
  }
  return { afterMs, act }
}

const answersOf = (board: Board, { birds, claimNo }: Held): Answer[] =>
  birds.flatMap((id) => {
    const bird = board.birds[id]
    return bird ? [answerOf(board, bird, claimNo)] : []
  })

/** One and the same bird does the same at the same visit, whenever the demo is made. */
function answerOf(board: Board, bird: Bird, claimNo: number): Answer {
  const lot = hashText(`${board.room.id} ${claimNo} ${bird.id}`) % 100
  const hasRefused = bird.feeds.at(-1)?.outcome === 'refused'
  if (lot < 3 && !hasRefused) return { bird: bird.id, outcome: 'refused' }
  if (lot < 5 && !hasRefused) return { bird: bird.id, outcome: 'notFed', reason: 'asleep' }
  const amount = planOf(board, bird)?.planned ?? null
  if (lot >= 13) return eaten(bird.id, 'ate', amount && { amount, is: 'planned' })
  const half = amount && { ...amount, n: Math.round(amount.n / 2) }
  return eaten(bird.id, 'some', half && { amount: half, is: 'measured' })
}

const eaten = (
  bird: BirdId,
  outcome: Answer['outcome'],
  given: NonNullable<Answer['given']> | null,
): Answer => (given === null ? { bird, outcome } : { bird, outcome, given })
