// What a simulated person does with a nest: claims it, goes there, feeds, writes it down at once, in
// parts, much too late or not at all, takes it back, mends it, and answers what is asked about it.

import { type BirdId, minuteMs, type NestId, secondMs } from '../../shared/base/values.ts'
import { birdsOf } from '../../shared/board/change.ts'
import type { Held } from '../../shared/board/state.ts'
import type { NextNest } from '../../shared/plan/nextNest.ts'
import { birdsInDoubt } from '../../shared/rules/doubts.ts'
import { drawAnswer, drawHabit, type Visit } from './visit.ts'
import type { Sight, Worker } from './worker.ts'

const travelMs = { least: 8 * secondMs, most: 70 * secondMs } as const
const perBirdMs = { least: 12 * secondMs, most: 40 * secondMs } as const
const lateMs = { least: 8 * minuteMs, most: 40 * minuteMs } as const
const share = {
  takesBack: 0.04,
  takesBackLater: 0.03,
  corrects: 0.04,
  moreTime: 0.1,
  short: 0.01,
  unsure: 0.03,
} as const

export class NestWork {
  readonly #person: Worker
  #visit: Visit | null = null
  /** The last claim walked away from: a person does not take it up again by themselves. */
  #leftClaimNo = 0

  constructor(person: Worker) {
    this.#person = person
  }

  get isBusy(): boolean {
    return this.#visit !== null
  }

  claim(sight: Sight, { nest, doubts }: NextNest): void {
    const seenDoubts = doubts.slice(0, 4)
    const ask = { type: 'ClaimNest', v: 1, nest } as const
    void this.#person.ask(sight, seenDoubts.length > 0 ? { ...ask, seenDoubts } : ask)
  }

  /** Goes to the nest the board says is in their hands; false when there is none. */
  takeUp({ board }: Sight): boolean {
    for (const { id, hands } of Object.values(board.nests)) {
      if (hands.type !== 'held' || hands.person !== this.#person.id) continue
      if (hands.claimNo === this.#leftClaimNo) return true
      this.#begin(id, hands)
      return true
    }
    return false
  }

  /** At the end of the day a claim still in hand is told of, however it came there. */
  finish({ board }: Sight): void {
    for (const { id: nest, hands } of Object.values(board.nests)) {
      if (hands.type !== 'held' || hands.person !== this.#person.id) continue
      const said = { type: 'all' } as const
      const { claimNo } = hands
      this.#person.report({ type: 'SayWhatHappened', v: 1, nest, claimNo, said })
    }
  }

  answerDoubt({ board }: Sight, answersShare: number): boolean {
    const { chance } = this.#person.world
    for (const { id: nest, doubts } of Object.values(board.nests)) {
      const mine = doubts.find((doubt) => doubt.owner === this.#person.id)
      if (mine === undefined || !chance.happens(answersShare)) continue
      const some = mine.birds.filter(() => chance.happens(0.5))
      const said = chance.oneOf([
        { type: 'all' } as const,
        { type: 'none' } as const,
        some.length > 0 ? { type: 'some' as const, birds: some } : { type: 'all' as const },
      ])
      this.#person.report({ type: 'SayWhatHappened', v: 1, nest, claimNo: mine.no, said })
      return true
    }
    return false
  }

  #begin(nest: NestId, held: Held): void {
    const { chance } = this.#person.world
    const { claimNo, birds, answered } = held
    const habit = drawHabit(chance)
    const visit = { nest, claimNo, birds, answered, habit, startedMonoMs: 0, life: 0 }
    this.#visit = visit
    const goMs = chance.between(travelMs.least, travelMs.most)
    this.#person.later(goMs, 'arrives', () => this.#arrive(visit))
  }

  #arrive(gone: Visit): void {
    const { device, world } = this.#person
    const visit = {
      ...gone,
      startedMonoMs: device.session?.monoNowMs() ?? 0,
      life: device.session === null ? -1 : device.life,
    }
    this.#visit = visit
    if (visit.habit === 'givesBack') {
      this.#giveBack(visit)
      return
    }
    const { nest, claimNo } = visit
    if (visit.habit === 'opens') this.#person.report({ type: 'StartFeed', v: 1, nest, claimNo })
    if (!this.#lookFirst(visit)) return
    const { least, most } = perBirdMs
    const feedMs = visit.birds.reduce((sum) => sum + world.chance.between(least, most), 0)
    if (world.chance.happens(share.moreTime))
      this.#person.later(feedMs / 2, 'asks', () => this.#moreTime(visit))
    this.#person.later(feedMs, 'has fed', () => this.#fed(visit))
  }

  #giveBack({ nest, claimNo }: Visit): void {
    this.#visit = null
    const sight = this.#person.sight()
    if (sight !== null) void this.#person.ask(sight, { type: 'GiveBack', v: 1, nest, claimNo })
  }

  #moreTime({ nest, claimNo }: Visit): void {
    const sight = this.#person.sight()
    if (sight !== null) void this.#person.ask(sight, { type: 'MoreTime', v: 1, nest, claimNo })
  }

  /** Where somebody may have fed before, the crops are looked at; all full, and there is nothing to do. */
  #lookFirst(visit: Visit): boolean {
    const { chance } = this.#person.world
    const nest = this.#person.sight()?.board.nests[visit.nest]
    const doubted = nest === undefined ? [] : birdsInDoubt(nest)
    const birds = visit.birds.filter((bird) => doubted.includes(bird))
    if (birds.length === 0) return true
    const looks = birds.map((bird) => ({
      bird,
      crop: chance.oneOf(['full', 'empty', 'cannotTell'] as const),
    }))
    this.#person.report({ type: 'Looked', v: 1, nest: visit.nest, looks })
    if (!looks.every(({ crop }) => crop === 'full') || looks.length < visit.birds.length)
      return true
    this.#calledAway(visit)
    return false
  }

  #fed(visit: Visit): void {
    const { chance } = this.#person.world
    const open = visit.birds.filter((bird) => !visit.answered.includes(bird))
    const half = open.slice(0, Math.ceil(open.length / 2))
    switch (visit.habit) {
      case 'forget':
        this.#walkOut(visit)
        return
      case 'late': {
        this.#walkOut(visit)
        const delayMs = chance.between(lateMs.least, lateMs.most)
        this.#person.later(delayMs, 'remembers', () => this.#answer(visit, open))
        return
      }
      case 'away':
        if (chance.happens(0.5) && half.length > 0) this.#answer(visit, half)
        this.#calledAway(visit)
        return
      case 'parts':
        if (half.length > 0) this.#answer(visit, half)
        visit.answered = [...visit.answered, ...half]
        this.#person.later(chance.between(20_000, 90_000), 'goes on', () => this.#done(visit))
        return
      default:
        this.#done(visit)
    }
  }

  #done(visit: Visit): void {
    const open = visit.birds.filter((bird) => !visit.answered.includes(bird))
    if (open.length > 0) this.#answer(visit, open)
    this.#visit = null
    this.#mend(visit)
  }

  #walkOut({ claimNo }: Visit): void {
    this.#leftClaimNo = claimNo
    this.#visit = null
  }

  #calledAway({ nest, claimNo }: Visit): void {
    this.#visit = null
    this.#person.report({ type: 'CalledAway', v: 1, nest, claimNo })
  }

  #answer({ nest, claimNo, startedMonoMs, life }: Visit, birds: readonly BirdId[]): void {
    const { device, world } = this.#person
    const board = this.#person.sight()?.board
    const brood = board === undefined ? birds.length : birdsOf(board, nest).length
    const body = {
      ...({ type: 'AnswerBirds', v: 1, nest, claimNo } as const),
      answers: birds.map((bird) => drawAnswer(world.chance, bird)),
      ...(brood > 0 && brood <= 12 ? { back: this.#counted(brood), door: 'shut' as const } : {}),
      ...this.#unmarked(birds.length),
    }
    this.#person.report(body, life === device.life ? { startedMonoMs } : {})
  }

  /** One bird is not back, once in a while. */
  #counted(brood: number): number {
    return this.#person.world.chance.happens(share.short) ? brood - 1 : brood
  }

  /** Somebody saw one of them refuse and cannot say which. */
  #unmarked(birds: number) {
    const isUnsure = birds > 1 && this.#person.world.chance.happens(share.unsure)
    return isUnsure ? { notKnownWhich: { outcome: 'refused' as const, count: 1 } } : {}
  }

  /** Second thoughts, soon or late. */
  #mend(visit: Visit): void {
    const { chance } = this.#person.world
    const { nest, claimNo } = visit
    if (chance.happens(share.takesBack)) {
      this.#person.later(chance.between(2_000, 9_000), 'takes back', () =>
        this.#person.report({ type: 'TakeBackFeed', v: 1, nest, claimNo }),
      )
    } else if (chance.happens(share.takesBackLater)) {
      const wasFed = chance.oneOf(['yes', 'no', 'unknown'] as const)
      this.#person.later(chance.between(20_000, 900_000), 'takes back', () =>
        this.#person.report({ type: 'TakeBackFeed', v: 1, nest, claimNo, wasFed }),
      )
    } else if (chance.happens(share.corrects)) {
      const answers = visit.birds.slice(0, 2).map((bird) => drawAnswer(chance, bird))
      this.#person.later(chance.between(10_000, 600_000), 'corrects', () =>
        this.#person.report({
          type: 'CorrectFeed',
          v: 1,
          nest,
          claimNo,
          answers,
          reason: 'mistaken',
        }),
      )
    }
  }
}
