// One visit to a nest as a feeder of the demo makes it: claim, walk over, look where a look is due, feed
// bird by bird, record, count back. Times are the room's; what is swallowed is noted among the crops.

import { minuteMs, secondMs } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { CommandOf } from '../../shared/board/commands.ts'
import type { Outcome } from '../../shared/board/constants.ts'
import type { Answer } from '../../shared/board/parts.ts'
import type { Bird, Board, Held, Nest } from '../../shared/board/state.ts'
import { nextNest } from '../../shared/plan/nextNest.ts'
import { claimOf } from '../../shared/rules/decision.ts'
import { unsureFeed } from '../../shared/rules/due.ts'
import type { AtWork } from './atWork.ts'
import { habitOneIn } from './habits.ts'

/** How the invented birds answer (invented shares, for the demo only). */
const outcomeShares: readonly (readonly [Outcome, number])[] = [
  ['ate', 0.9],
  ['some', 0.07],
  ['refused', 0.03],
]

function drawnOutcome(feeder: AtWork): Outcome {
  let left = feeder.draw.share()
  for (const [outcome, share] of outcomeShares) {
    left -= share
    if (left < 0) return outcome
  }
  return 'ate'
}

/** Takes the nest that comes next for this person; false where there is none, or somebody was quicker. */
export async function claimNext(feeder: AtWork): Promise<boolean> {
  const seen = feeder.handset.see()
  if (!seen || !feeder.handset.canAsk) return false
  const next = nextNest(seen.board, feeder.person, seen.nowMs)
  if (!next) return false
  return feeder.handset.ask({
    ...{ type: 'ClaimNest', v: 1, nest: next.nest },
    ...(next.doubts.length > 0 ? { seenDoubts: [...next.doubts] } : {}),
  })
}

type Claim = { readonly nest: Nest; readonly held: Held }

/** The claim as it stands now; null once it has ended, by whatever. */
const current = (feeder: AtWork, no: number): Claim | null => {
  const seen = feeder.handset.see()
  const claim = seen ? claimOf(seen.board, feeder.person) : null
  return claim?.held.claimNo === no ? claim : null
}

/** Everything from the claim to the count. */
export async function visit(feeder: AtWork, { nest, held }: Claim): Promise<void> {
  const { handset, draw } = feeder
  const startedMonoMs = handset.monoNowMs()
  await feeder.wait(draw.between(15 * secondMs, 45 * secondMs))
  if (handset.see()?.board.room.usesStartTap) {
    const about = { nest: nest.id, claimNo: held.claimNo }
    await handset.report({ type: 'StartFeed', v: 1, ...about })
  }
  const hungry = await look(feeder, nest.id, held)
  if (hungry.length === 0) {
    await sayNone(feeder, { nest, held })
    return
  }
  const answers = await feedEach(feeder, { nest, held }, hungry)
  if (answers.length === 0) return
  if (feeder.habit === 'forgets' && draw.oneIn(habitOneIn)) {
    feeder.remember(nest.id, held, answers)
    return
  }
  await record(feeder, { nest, held }, answers, startedMonoMs)
}

/** Crops are looked at where somebody may have fed, or went hungry; the birds to feed come back. */
async function look(feeder: AtWork, nest: Nest['id'], held: Held): Promise<readonly Bird[]> {
  const seen = feeder.handset.see()
  const now = seen?.board.nests[nest]
  if (!seen || !now) return []
  const birds = birdsOf(seen.board, nest).filter((bird) => held.birds.includes(bird.id))
  const isDoubted = (bird: Bird) =>
    unsureFeed(bird) !== null ||
    now.doubts.some((doubt) => doubt.birds.includes(bird.id) && !doubt.looked.includes(bird.id))
  const doubted = birds.filter(isDoubted)
  if (doubted.length === 0) return birds
  await feeder.wait(doubted.length * 5 * secondMs)
  const looks = doubted.map((bird) => ({
    bird: bird.id,
    crop: feeder.crops.look(bird.id, feeder.nowMs()),
  }))
  await feeder.handset.report({ type: 'Looked', v: 1, nest, looks })
  const full = new Set(looks.filter(({ crop }) => crop === 'full').map(({ bird }) => bird))
  return birds.filter((bird) => !full.has(bird.id))
}

/** Every crop was full: the nest goes back, and nothing was fed. */
const sayNone = (feeder: AtWork, { nest, held }: Claim): Promise<void> =>
  feeder.handset.report({
    ...{ type: 'SayWhatHappened', v: 1, nest: nest.id, claimNo: held.claimNo },
    said: { type: 'none' },
  })

async function feedEach(
  feeder: AtWork,
  { nest, held }: Claim,
  birds: readonly Bird[],
): Promise<readonly Answer[]> {
  const answers: Answer[] = []
  for (const bird of birds) {
    await feeder.wait(feeder.draw.between(20 * secondMs, 50 * secondMs))
    // Told to stop, or the bird was fed by somebody else meanwhile: hands off.
    const claim = feeder.isOut ? { nest, held } : current(feeder, held.claimNo)
    const board: Board | undefined = feeder.handset.see()?.board
    if (!board || !claim?.held.birds.includes(bird.id) || claim.held.stop === 'held') continue
    const outcome = drawnOutcome(feeder)
    if (outcome !== 'refused') {
      feeder.crops.fed(board, bird, feeder.nowMs(), held.extraAfter !== null)
    }
    answers.push({ bird: bird.id, outcome })
    if (feeder.habit === 'walksOut' && feeder.draw.oneIn(4 * habitOneIn)) {
      await feeder.walkOut(feeder.draw.between(12 * minuteMs, 25 * minuteMs))
      feeder.remember(nest.id, held, answers)
      return []
    }
  }
  return answers
}

async function record(
  feeder: AtWork,
  { nest, held }: Claim,
  answers: readonly Answer[],
  startedMonoMs: number,
): Promise<void> {
  const board = feeder.handset.see()?.board
  const command: CommandOf<'AnswerBirds'> = {
    ...{ type: 'AnswerBirds', v: 1, nest: nest.id, claimNo: held.claimNo },
    ...{ answers: [...answers], door: 'shut' },
    back: board ? birdsOf(board, nest.id).length : answers.length,
  }
  await feeder.handset.report(command, startedMonoMs)
  if (feeder.habit === 'tapsTwice' && feeder.draw.oneIn(habitOneIn)) {
    await feeder.handset.report(command, startedMonoMs)
  }
}
